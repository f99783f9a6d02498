package store

import (
	"errors"
	"fmt"
)

// Error is a fault with a code for programs and a message for people: lower
// case, no full stop. It never holds a recipe's text or a conversation's state.
type Error struct {
	Code    string
	Message string
	Err     error // the cause, for the log; may be nil
}

// The codes, as errors to be tested with errors.Is.
var (
	ErrNotFound   = &Error{Code: "not found"}   // not there, expired or deleted
	ErrConflict   = &Error{Code: "conflict"}    // somebody else changed it meanwhile: read again, nothing is lost
	ErrExists     = &Error{Code: "exists"}      // the name or id is taken
	ErrInvalid    = &Error{Code: "invalid"}     // the caller's values are unfit
	ErrTooLarge   = &Error{Code: "too large"}   // beyond a Max constant
	ErrNewerStore = &Error{Code: "newer store"} // written by a newer program
	ErrLocked     = &Error{Code: "locked"}      // another process has the directory open
	ErrNoSpace    = &Error{Code: "no space"}    // the disk is (nearly) full: nothing was written
	ErrKey        = &Error{Code: "key"}         // the key does not fit the store or the backup
	ErrCorrupt    = &Error{Code: "corrupt"}     // files or a backup are damaged
	ErrClosed     = &Error{Code: "closed"}      // used after Close
)

// Error gives the message, or the code if there is none.
func (e *Error) Error() string {
	switch {
	case e.Message == "":
		return e.Code
	case e.Err != nil:
		return e.Message + ": " + e.Err.Error()
	}
	return e.Message
}

// Unwrap gives the cause.
func (e *Error) Unwrap() error { return e.Err }

// Is reports whether target is the variable of e's code.
func (e *Error) Is(target error) bool {
	t, ok := target.(*Error)
	return ok && t.Code == e.Code && t.Message == ""
}

// Code returns the code of an error of this package, "" for nil and "internal"
// for any other error.
func Code(err error) string {
	var e *Error
	switch {
	case err == nil:
		return ""
	case errors.As(err, &e):
		return e.Code
	}
	return "internal"
}

// Message returns the message for people without its cause, "" for nil and
// "internal error" for any error that is not of this package.
func Message(err error) string {
	var e *Error
	switch {
	case err == nil:
		return ""
	case !errors.As(err, &e):
		return "internal error"
	case e.Message == "":
		return e.Code
	}
	return e.Message
}

func fault(code *Error, format string, args ...any) error {
	return &Error{Code: code.Code, Message: fmt.Sprintf(format, args...)}
}
