// Package closing builds the quick items at the end of a lesson: three to eight
// over its words and two older ones, in two parallel forms, so that neighbours
// test the same thing on different figures.
//
// Items are made on the board, picked, mended by moving one peg, or judged true
// or not. There is no list of words in sight, and no feedback until the teacher
// gives it. Each wrong answer is named by the idea that may stand behind it.
// Every key is decided by the kernel. Start reading at Build.
package closing

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"

	"pegwright/board"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// Kind is what an item asks to do.
type Kind string

// The kinds of items.
const (
	Make Kind = "make" // make it
	Pick Kind = "pick" // pick all that are
	Mend Kind = "mend" // move one corner so that it is
	Is   Kind = "is"   // this is one: true or not, and why
	All  Kind = "all"  // each of these is one of those: true or not, and why
)

// The number of items and of older words.
const (
	Least = 3
	Most  = 8
	Older = 2
)

// Item is one question.
type Item struct {
	Kind    Kind
	Word    word.Word
	First   word.Word       // all: "each First is a Word"
	Asked   task.Task       // make, mend
	Picture word.Picture    // mend: the figure to mend; is: the one to judge; all: a First, which decides if not true
	Options []Option        // pick
	True    bool            // is, all
	Lacks   task.Conditions // mend, is, all: what the picture lacks of the word
	Idea    wording.Message // is, all: what may stand behind the wrong answer
	Older   bool            // about a word of an earlier lesson
}

// Option is a picture to pick or leave.
type Option struct {
	Picture word.Picture
	Right   bool
	Idea    wording.Message // behind picking it wrongly, or behind leaving it out
}

// Forms are two lists of items that test the same, one for each of two
// neighbours.
type Forms struct{ A, B []Item }

// Question is what items are built for.
type Question struct {
	Words       []word.Word // of the lesson
	Older       []word.Word
	Board       *board.Board
	Definitions shape.Definitions
	Items       int
	Seed        uint64
}

// CountError says that items cannot be built in this number.
type CountError struct{ Items, Words int }

// Error returns one sentence.
func (e *CountError) Error() string {
	return fmt.Sprintf("%d items over %d words; ask for %d to %d items over at least one word", e.Items, e.Words, Least, Most)
}

// Build makes the items: over the words of the lesson in turn, in different
// kinds, and as the last ones over two older words, where there are any. A kind
// that a word does not allow gives way to the next one. One question has one
// answer. The error is a *CountError, or atlas.ErrStopped.
func Build(ctx context.Context, q Question) (Forms, error) {
	if q.Items < Least || q.Items > Most || len(q.Words) == 0 {
		return Forms{}, &CountError{q.Items, len(q.Words)}
	}
	random := rand.New(rand.NewPCG(q.Seed, 4))
	words, older := mixed(q.Words, random), mixed(q.Older, random)
	older = older[:min(Older, len(older))]
	b := &builder{ctx: ctx, Question: q, random: random, stocks: map[string]*stock{}}
	var out Forms
	for i := range q.Items {
		w, old := words[i%len(words)], false
		if from := q.Items - len(older); i >= from {
			w, old = older[i-from], true
		}
		one, two := b.pair(w, i)
		if b.err != nil {
			return Forms{}, b.err
		}
		one.Older, two.Older = old, old
		out.A, out.B = append(out.A, one), append(out.B, two)
	}
	return out, nil
}

func mixed(words []word.Word, random *rand.Rand) []word.Word {
	out := slices.Clone(words)
	random.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}

// kinds is the order in which kinds take turns.
var kinds = []Kind{Pick, Make, Is, Mend, All}

// pair makes an item on a word in both forms, of the kind whose turn it is or
// the next one that works. Picking always works: every word has pictures.
func (b *builder) pair(w word.Word, turn int) (one, two Item) {
	for i := range kinds {
		kind := kinds[(turn+i)%len(kinds)]
		if one, two, ok := b.makePair(kind, w); ok && b.err == nil {
			return one, two
		}
	}
	one, two, _ = b.makePair(Pick, w)
	return one, two
}

func (b *builder) makePair(kind Kind, w word.Word) (one, two Item, ok bool) {
	switch kind {
	case Make:
		return b.makeIt(w)
	case Mend:
		return b.mend(w)
	case Is:
		return b.isIt(w)
	case All:
		return b.allAre(w)
	}
	return b.pick(w)
}

// Prompt returns what an item asks, in a language.
func (i Item) Prompt(language string, d shape.Definitions) string {
	t, first := i.Word.Text(language, d), i.First.Text(language, d)
	return wording.In(language).Say(wording.Message{
		ID:   "item." + string(i.Kind),
		Fill: map[string]string{"A": t.A, "Plural": t.Plural, "First": first.Name},
	})
}

// Because returns why the answer of an item is what it is, in a language; the
// marks that are lacking are put into words by say, which the pages call. Items
// to make or pick have no single reason.
func (i Item) Because(language string, d shape.Definitions, say func(task.Condition) string) string {
	fill := map[string]string{"A": i.Word.Text(language, d).A, "First": i.First.Text(language, d).Name}
	id := ""
	switch {
	case i.Kind == Is && i.True:
		id = "because.has_marks"
	case i.Kind == All && i.True:
		id = "because.always"
	case i.Kind == All:
		id = "because.not_always"
	case i.Kind == Is, i.Kind == Mend:
		lacks := i.Word.Fails(i.Picture, d)
		if len(lacks) == 0 {
			return ""
		}
		id, fill["Lacks"] = "because.lacks", SayMark(lacks[0].String(), language, say)
	default:
		return ""
	}
	return wording.In(language).Say(wording.Message{ID: id, Fill: fill})
}
