package slack

import (
	"bytes"
	"cmp"
	"errors"
	"strings"

	"github.com/slack-go/slack"
)

// mostFile is the largest text file that is read as a recipe, in bytes.
const mostFile = 64 << 10

const (
	noTextFile = "I read recipes from a message, a text file or a snippet of up to 64 kB, and nothing else. Paste the recipe as a message."
	unreadFile = "The file could not be read. Paste the recipe as a message."
)

// attached takes a file of the message as what is said, if there is one: the
// first text file, or else, if nothing was typed either, a file that cannot be
// read.
func (m *said) attached(files []slack.File) {
	for _, f := range files {
		address := cmp.Or(f.URLPrivateDownload, f.URLPrivate)
		if strings.HasPrefix(f.Mimetype, "text/") && f.Size <= mostFile && !f.IsExternal && address != "" {
			m.file = address
			return
		}
	}
	m.badFile = len(files) > 0 && strings.TrimSpace(m.text) == ""
}

// begins reports whether a recipe begins with the message: its text has several
// lines, or it brings a file.
func (m *said) begins() bool { return isRecipe(m.text) || m.file != "" }

var errLargeFile = errors.New("the file is larger than Slack said")

// limitedBuffer takes mostFile bytes and no more. It is a Writer only: the
// buffer's other methods would take more.
type limitedBuffer struct{ b bytes.Buffer }

func (l *limitedBuffer) Write(p []byte) (int, error) {
	if l.b.Len()+len(p) > mostFile {
		return 0, errLargeFile
	}
	return l.b.Write(p)
}

// fetch gets the text of a message's file. Slack-go sends the token to Slack's
// addresses only.
func (s *Server) fetch(m said) (string, error) {
	var l limitedBuffer
	if err := m.ws.api.GetFileContext(s.ctx, m.file, &l); err != nil {
		return "", err
	}
	return tidy(l.b.String()), nil
}
