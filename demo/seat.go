package demo

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
)

// Seat is a device at a pupil's place: what a browser's seat page says to the
// server, without the page.
type Seat struct {
	base string
	http *http.Client
}

// ErrOut is returned when the server knows no place of this device: the
// teacher sent it out, or its tile is taken.
var ErrOut = errors.New("no place in the room")

// State is what the server knows of a seat.
type State struct {
	Task  string  `json:"task"` // being made, "" for none
	Live  *string `json:"live"`
	Shown *struct {
		ID     string `json:"id"`
		Figure string `json:"figure"`
	} `json:"shown"`
}

// Showing is a figure as a device hands it in.
type Showing struct {
	ID     string `json:"id"`
	Task   string `json:"task"`
	Figure string `json:"figure"`
	Made   int64  `json:"made"` // ms by the device's clock
}

// Answer is what the server says to a showing.
type Answer struct {
	Kept  bool   `json:"kept"`
	Late  bool   `json:"late"`
	Words string `json:"words"` // why it was not kept
	Lines []struct {
		Text string `json:"text"`
	} `json:"lines"`
}

// NewSeat makes a device that reaches a server at an address, by a transport
// that may be shared.
func NewSeat(base string, transport http.RoundTripper) *Seat {
	jar, err := cookiejar.New(nil)
	if err != nil {
		panic(err) // without options it has no way to fail
	}
	return &Seat{base, &http.Client{Transport: transport, Jar: jar}}
}

// Join says the room word and takes a pupil's tile.
func (s *Seat) Join(ctx context.Context, word, run, pupil string) error {
	if err := s.form(ctx, "/join", url.Values{"word": {word}}); err != nil {
		return err
	}
	return s.form(ctx, "/room/"+run+"/take", url.Values{"pupil": {pupil}})
}

// form sends a form and follows where it leads.
func (s *Seat) form(ctx context.Context, path string, form url.Values) error {
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, s.base+path, strings.NewReader(form.Encode()))
	if err != nil {
		return err
	}
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	res, err := s.http.Do(req)
	if err != nil {
		return err
	}
	defer drain(res)
	switch res.StatusCode {
	case http.StatusOK:
		return nil
	case http.StatusConflict, http.StatusNotFound:
		return fmt.Errorf("%s: %s: %w", path, res.Status, ErrOut)
	}
	return fmt.Errorf("%s: %s", path, res.Status)
}

// State asks what the server knows.
func (s *Seat) State(ctx context.Context) (State, error) {
	var out State
	return out, s.call(ctx, http.MethodGet, "/seat/state", nil, &out)
}

// Move tells what is on the board now.
func (s *Seat) Move(ctx context.Context, taskID, figure string) error {
	return s.call(ctx, http.MethodPost, "/seat/move", map[string]string{"task": taskID, "figure": figure}, nil)
}

// Show hands a figure in and returns when the server has it on disk. A showing
// that was refused is no error: the answer says so.
func (s *Seat) Show(ctx context.Context, in Showing) (Answer, error) {
	var out Answer
	err := s.call(ctx, http.MethodPost, "/seat/show", in, &out)
	var refused *refusedError
	if errors.As(err, &refused) && refused.status < http.StatusInternalServerError && !errors.Is(err, ErrOut) {
		return Answer{Words: refused.body}, nil
	}
	return out, err
}

// refusedError is an answer other than success.
type refusedError struct {
	path   string
	status int
	body   string
}

func (e *refusedError) Error() string { return fmt.Sprintf("%s: status %d", e.path, e.status) }

// Is reports whether the refusal means that the device has no place.
func (e *refusedError) Is(target error) bool {
	return target == ErrOut && e.status == http.StatusUnauthorized
}

// call sends and reads JSON.
func (s *Seat) call(ctx context.Context, method, path string, in, out any) error {
	var body io.Reader
	if in != nil {
		text, err := json.Marshal(in)
		if err != nil {
			return err
		}
		body = bytes.NewReader(text)
	}
	req, err := http.NewRequestWithContext(ctx, method, s.base+path, body)
	if err != nil {
		return err
	}
	req.Header.Set("Content-Type", "application/json")
	res, err := s.http.Do(req)
	if err != nil {
		return err
	}
	defer drain(res)
	if res.StatusCode >= http.StatusBadRequest {
		text, _ := io.ReadAll(io.LimitReader(res.Body, 1<<10))
		return &refusedError{path, res.StatusCode, string(text)}
	}
	if out == nil {
		return nil
	}
	return json.NewDecoder(res.Body).Decode(out)
}

// Listen opens the stream and calls changed with the pieces of each event, nil
// for hello, until the stream or the context ends.
func (s *Seat) Listen(ctx context.Context, changed func(pieces []string)) error {
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, s.base+"/seat/stream", nil)
	if err != nil {
		return err
	}
	res, err := s.http.Do(req)
	if err != nil {
		return err
	}
	defer func() { _ = res.Body.Close() }()
	if res.StatusCode != http.StatusOK {
		return &refusedError{"/seat/stream", res.StatusCode, ""}
	}
	return readEvents(res.Body, changed)
}

// readEvents reads server-sent events: a name, then data on one line.
func readEvents(r io.Reader, changed func(pieces []string)) error {
	lines := bufio.NewScanner(r)
	name := ""
	for lines.Scan() {
		if after, ok := strings.CutPrefix(lines.Text(), "event: "); ok {
			name = after
		}
		data, ok := strings.CutPrefix(lines.Text(), "data: ")
		switch {
		case ok && name == "hello":
			changed(nil)
		case ok && name == "changed":
			var pieces []string
			if err := json.Unmarshal([]byte(data), &pieces); err != nil {
				return fmt.Errorf("event: %w", err)
			}
			changed(pieces)
		}
	}
	return lines.Err()
}

// drain reads an answer to its end, so that the connection can be used again.
func drain(res *http.Response) {
	_, _ = io.Copy(io.Discard, io.LimitReader(res.Body, 1<<20))
	_ = res.Body.Close()
}
