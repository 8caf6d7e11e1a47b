package web

import (
	"context"
	"errors"
	"net/http"

	"layshaft/workshop"
	"layshaft/yamlfile"
)

// refusal is a plain sentence to the person.
type refusal string

func (r refusal) Error() string { return string(r) }

// figureFault is something wrong in what was typed: at which key, what, and what would be right.
type figureFault struct {
	Key          string // of the job file
	Line, Column int    // 0 where it has none
	Message      string
	Example      string
}

// Sentence is the message with its example.
func (f figureFault) Sentence() string {
	if f.Example == "" {
		return f.Message
	}
	return f.Message + "; write for example " + f.Example
}

// figureFaults gathers every fault that an error tells of; none where the error is of another kind.
func figureFaults(err error) []figureFault {
	switch e := err.(type) {
	case nil:
		return nil
	case yamlfile.Problem:
		return []figureFault{{e.Key, e.Line, e.Column, e.Message, e.Example}}
	case *workshop.Fault:
		return []figureFault{{Key: e.Key, Message: e.Message, Example: e.Example}}
	case interface{ Unwrap() []error }:
		var all []figureFault
		for _, inner := range e.Unwrap() {
			all = append(all, figureFaults(inner)...)
		}
		return all
	}
	return figureFaults(errors.Unwrap(err))
}

type faultPage struct {
	base
	Text string
}

// showFault turns an error into a page: what is wrong with the request is said in full, what is wrong with the
// program only in the log.
func (s *server) showFault(w http.ResponseWriter, r *request, err error) {
	if errors.Is(err, context.Canceled) {
		return // the reader has gone away
	}
	status, head, text := faultWords(err)
	if status == http.StatusInternalServerError {
		s.Log.Error("request failed", "method", r.Method, "path", r.URL.Path, "error", err)
	}
	s.render(w, r, status, "fault", faultPage{s.base(r, head, "/"), text})
}

func faultWords(err error) (status int, head, text string) {
	var notAllowed *workshop.NotAllowed
	var conflict *workshop.Conflict
	var tooLarge *http.MaxBytesError
	var refused refusal
	switch {
	case errors.Is(err, workshop.ErrNotFound):
		return http.StatusNotFound, "There is nothing here", "No car and no page has this address. It may have been mistyped."
	case errors.As(err, &tooLarge):
		return http.StatusRequestEntityTooLarge, "That is too much at once",
			"What was sent is larger than any job file or dyno run. Nothing was entered. Go back: what you typed is still there."
	case errors.Is(err, workshop.ErrNotSaved):
		return http.StatusInsufficientStorage, "Nothing was saved",
			"The database could not keep what you entered. Everything entered before is safe. Go back: what you typed is still on the page. " +
				"See that the disk has room and that the program may write to it, then try again."
	case errors.As(err, &notAllowed):
		return http.StatusForbidden, "Not yours to enter", sentence(err.Error())
	case errors.As(err, &conflict), errors.Is(err, workshop.ErrIDTaken):
		return http.StatusConflict, "Somebody else was here first", "Nothing was entered. Go back and look at what is there now."
	case errors.As(err, &refused):
		return http.StatusBadRequest, "That did not work", sentence(err.Error())
	case len(figureFaults(err)) > 0:
		return http.StatusUnprocessableEntity, "That did not work", sentence(err.Error())
	}
	return http.StatusInternalServerError, "A fault in the program",
		"Nothing that was saved is lost. Go back and try again; if it happens twice, report what you did."
}
