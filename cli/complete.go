package cli

import (
	"slices"

	"github.com/alecthomas/kong"
	kongcompletion "github.com/jotaen/kong-completion"
	"github.com/posener/complete"

	"pegwright/shape"
	"pegwright/task"
)

// completeWords answers the shell when it asks, through the environment, how
// the line goes on, and reports whether it did ask.
func completeWords(parser *kong.Kong) (bool, error) {
	command, err := kongcompletion.Command(parser, kongcompletion.WithPredictors(predictors()))
	if err != nil {
		return false, err
	}
	// Conditions may follow one another, and the shell cuts them in two at
	// the sign, which the library's predictor for arguments knows nothing of.
	for _, name := range []string{"check", "find"} {
		sub := command.Sub[name]
		sub.Args = complete.PredictFunc(predictCondition)
		command.Sub[name] = sub
	}
	c := complete.New(parser.Model.Name, command)
	c.Out = parser.Stdout
	return c.Complete(), nil
}

// predictors are the words offered for flags.
func predictors() map[string]complete.Predictor {
	return map[string]complete.Predictor{
		"board":     complete.PredictSet("square:5x5", "square:11x11", "staggered:5x5", "triangle:5", "ring:12", "ring:12+centre", "ring:24"),
		"condition": complete.PredictFunc(predictCondition),
		"picture":   complete.PredictOr(complete.PredictFiles("*.svg"), complete.PredictFiles("*.pdf"), complete.PredictFiles("*.png")),
	}
}

// predictCondition offers properties, and after one the values it takes.
func predictCondition(a complete.Args) []string {
	var out []string
	switch task.Property(a.LastCompleted) {
	case task.Kind:
		for _, n := range shape.AllNames() {
			out = append(out, string(n))
		}
		return out
	case task.Convex, task.Equilateral, task.Equiangular, task.Regular:
		return []string{"yes", "no"}
	}
	properties := task.Properties()
	if slices.Contains(properties, task.Property(a.LastCompleted)) {
		return nil // a number comes next
	}
	for _, p := range properties {
		out = append(out, string(p)+"=")
	}
	return out
}
