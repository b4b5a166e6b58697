package say

// Label is a heading or a small word of a screen or a paper, by its message.
type Label string

// The labels.
const (
	LabelCorners    Label = "label.corners"
	LabelPassed     Label = "label.passed"
	LabelNames      Label = "label.names"
	LabelSides      Label = "label.sides"
	LabelAngles     Label = "label.angles"
	LabelArea       Label = "label.area"
	LabelPerimeter  Label = "label.perimeter"
	LabelPegsInside Label = "label.pegs_inside"
	LabelPegsOnEdge Label = "label.pegs_on_edge"
	LabelLikeness   Label = "label.likeness"
	LabelWhy        Label = "label.why"
	LabelPieces     Label = "label.pieces"
	LabelPairs      Label = "label.pairs"
	LabelProblems   Label = "label.problems"
	LabelNudge      Label = "label.nudge"
	LabelChange     Label = "label.change"
	LabelIdeas      Label = "label.ideas"
	LabelExamples   Label = "label.examples"
	LabelNearest    Label = "label.nearest"
	LabelYes        Label = "label.yes"
	LabelNo         Label = "label.no"
)

// Label returns the words of a label.
func (s *Speaker) Label(l Label) string { return s.text(string(l), nil) }
