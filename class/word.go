package class

import (
	"encoding/base32"
	"encoding/binary"
	"io"
	"strings"
	"unicode"
)

// NewID returns 128 random bits in lower-case letters and the figures 2 to 7.
// It panics when random fails, which crypto/rand's reader never does.
func NewID(random io.Reader) string {
	var bits [16]byte
	mustRead(random, bits[:])
	return idLetters.EncodeToString(bits[:])
}

var idLetters = base32.NewEncoding("abcdefghijklmnopqrstuvwxyz234567").WithPadding(base32.NoPadding)

// ValidID reports whether a text that came from outside may be an ID: 16 to 64
// small letters, figures and hyphens. IDs that devices make for their showings
// are such, and so are those from NewID.
func ValidID(id string) bool {
	if len(id) < 16 || len(id) > 64 {
		return false
	}
	return !strings.ContainsFunc(id, func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '-'
	})
}

// NewRoomWord returns two short common words such as "amber-otter" for which
// taken is false, or "" in the case that none is left. It panics when random
// fails.
func NewRoomWord(random io.Reader, taken func(string) bool) string {
	const tries = 64
	for range tries {
		if word := roomWordAt(draw(random)); !taken(word) {
			return word
		}
	}
	start := draw(random)
	for i := range RoomWords {
		if word := roomWordAt((start + i) % RoomWords); !taken(word) {
			return word
		}
	}
	return ""
}

// CleanRoomWord returns a room word as NewRoomWord writes it from what someone
// typed, with spaces, capitals, or anything else but letters between the words. The
// result may be no room word at all.
func CleanRoomWord(typed string) string {
	words := strings.FieldsFunc(strings.ToLower(typed), func(r rune) bool { return !unicode.IsLetter(r) })
	word := strings.Join(words, "-")
	if len(words) == 1 {
		word = splitRoomWord(word)
	}
	if len(word) > 2*len("clementine") {
		return ""
	}
	return word
}

// splitRoomWord puts the hyphen into a room word typed in one piece. No two
// room words are the same without their hyphen, as a test shows.
func splitRoomWord(typed string) string {
	for _, first := range firstWords {
		rest, ok := strings.CutPrefix(typed, first)
		if !ok {
			continue
		}
		for _, second := range secondWords {
			if rest == second {
				return first + "-" + second
			}
		}
	}
	return typed
}

// draw returns a number below RoomWords. Its bias is under one in 100,000.
func draw(random io.Reader) int {
	var bits [4]byte
	mustRead(random, bits[:])
	return int(binary.LittleEndian.Uint32(bits[:]) % uint32(RoomWords))
}

func roomWordAt(i int) string {
	return firstWords[i/len(secondWords)] + "-" + secondWords[i%len(secondWords)]
}

func mustRead(random io.Reader, into []byte) {
	if _, err := io.ReadFull(random, into); err != nil {
		panic("class: no randomness: " + err.Error())
	}
}

// RoomWords is how many room words there are.
var RoomWords = len(firstWords) * len(secondWords)

// The words are short, common, kind, and easily told apart: a test holds every
// two of them at least two letters' changes apart. None of the first is a word
// for a person's body, and none of the second is a name to call a person by.
var (
	firstWords = strings.Fields(`
		amber azure bold brave breezy bright brisk bronze bubbly calm
		cheery chirpy clear cloudy comfy copper coral cosy crisp
		curly dancing daring dotted eager early easy fancy fast feathery
		fluffy fresh frosty gentle glad gleaming glowing golden grand
		grassy handy happy honest humble indigo jade jaunty joyful
		keen kind leafy lemon light lilac little lively loyal lucky
		lunar magic merry mighty minty modest mossy neat nimble noble
		olive opal orange patient peachy polite proud purple
		quick quiet rapid ready ruby scarlet shiny silky silver
		smart smooth snowy snug solar speedy spotted starry steady striped
		sturdy sunny super swift tall teal tidy topaz trusty upbeat
		velvet violet vivid warm wavy windy wise witty zesty`)
	secondWords = strings.Fields(`
		acorn alder almond apple apricot aspen aster badger bamboo basil
		bear bison bluebell bramble butterfly camel canary cedar
		chestnut clover cricket curlew daffodil dahlia daisy dolphin dragonfly
		eagle egret falcon fennel fern finch flamingo fox frog gecko
		giraffe hawk hazel heather hedgehog heron holly iris ivy jackdaw
		jasmine juniper kingfisher kitten kiwi koala lark laurel lavender
		lemur lilypad linnet lion lizard llama lobster lotus lynx magpie
		mango maple marigold marten meerkat moose nettle nutmeg oak
		octopus orchid osprey otter owl oyster panda parrot parsley pelican
		penguin pepper plum pony poplar poppy primrose puffin pumpkin
		quail rabbit raven robin rosemary rowan salmon seahorse sparrow spruce
		squirrel starling stork sunflower swan sycamore thistle tiger toucan
		tulip turtle walnut walrus willow wren zebra
		buttercup snowdrop tangerine dormouse reindeer cornflower mulberry`)
)
