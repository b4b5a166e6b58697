package demo

import (
	"context"
	"math/rand/v2"
	"time"
)

// pace is how long a pupil takes: before the first peg, from peg to peg, before
// showing, and before making another one.
type pace struct{ think, peg, look, rest time.Duration }

// paces are the paces of the characters; those not listed go steadily.
var paces = map[Character]pace{
	Quick:   {3 * time.Second, 500 * time.Millisecond, 1 * time.Second, 15 * time.Second},
	Careful: {12 * time.Second, 1500 * time.Millisecond, 5 * time.Second, 35 * time.Second},
	Slow:    {25 * time.Second, 4 * time.Second, 10 * time.Second, 90 * time.Second},
	Copier:  {4 * time.Second, 900 * time.Millisecond, 2 * time.Second, 40 * time.Second},
}

var steady = pace{8 * time.Second, 1100 * time.Millisecond, 3 * time.Second, 40 * time.Second}

func (who Character) pace() pace {
	if p, ok := paces[who]; ok {
		return p
	}
	return steady
}

// away is how long the one who drops off the network stays away.
const away = 20 * time.Second

// varied returns a time somewhere round a usual one, since nobody is a clock.
func varied(usual time.Duration, random *rand.Rand) time.Duration {
	return time.Duration(float64(usual) * (0.5 + random.Float64()))
}

// Pause waits, or returns early with the context's error.
type Pause func(ctx context.Context, d time.Duration) error

// Wait is the Pause of the real clock.
func Wait(ctx context.Context, d time.Duration) error {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-t.C:
		return nil
	}
}
