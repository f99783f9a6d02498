package slack

import (
	"strings"
	"unicode/utf8"

	"github.com/slack-go/slack"

	"pottle/bot"
)

// Message is one post: Blocks are what is seen; Text is all of it again, for
// screen readers, notices and clients that show no blocks.
type Message struct {
	Text   string
	Blocks []slack.Block
}

// Limits of a post, in bytes of escaped text, which are never fewer than
// Slack's characters: what it recommends for a text, what a section holds with
// room to spare, and its number of blocks. All blocks of a post together hold
// about 13,000 characters; a text of textLimit and its buttons stay far below.
const (
	textLimit    = 4000
	sectionLimit = 2900
	blockLimit   = 50
)

// Messages turns a reply into posts. Its paragraphs stand in sections, its
// figures in code blocks (see aligned), and its choices, if it offers them, are
// buttons too. The reminder stands in each post, once, whether reply ends in it
// or not.
//
// A reply that is too long for one post is divided between paragraphs; a
// paragraph that is too long, between lines; a line, between words. Nothing is
// left out.
func Messages(reply string) []Message {
	var posts []Message
	page := newPage()
	for _, p := range paragraphs(reply) {
		if !page.fits(p...) && newPage().fits(p...) {
			posts, page = append(posts, page.message()), newPage()
		}
		for _, piece := range p {
			if !page.fits(piece) {
				posts, page = append(posts, page.message()), newPage()
			}
			page.add(piece)
		}
	}
	return append(posts, page.message())
}

// piece is a part of a reply that goes into one block: lines of figures, or
// other lines.
type piece struct {
	text    string // escaped
	figures bool
	begins  bool // a paragraph
	choices []choice
}

// size is what p adds to a text.
func (p piece) size() int {
	return len(p.shown()) + len("\n\n")
}

// shown is p as Slack is to show it.
func (p piece) shown() string {
	if p.figures {
		return codeFence + "\n" + p.text + "\n" + codeFence
	}
	return p.text
}

const codeFence = "```"

// paragraphs divides a reply at blank lines, without the reminder, and each
// paragraph into pieces. Every piece fits a post of its own.
func paragraphs(reply string) [][]piece {
	reply = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\x00", "").Replace(strings.ToValidUTF8(reply, "\ufffd"))
	var all [][]piece
	var lines []string
	end := func() {
		if len(lines) > 0 {
			all = append(all, pieces(lines))
		}
		lines = nil
	}
	for line := range strings.SplitSeq(reply, "\n") {
		switch line = strings.TrimRight(line, " \t"); {
		case strings.TrimSpace(line) == bot.Reminder:
		case line == "":
			end()
		default:
			lines = append(lines, line)
		}
	}
	end()
	return all
}

// pieces divides the lines of a paragraph into figures and others, and what is
// too long for a section.
func pieces(lines []string) []piece {
	figures, offered := aligned(lines), choices(lines)
	var all []piece
	var p piece
	end := func() {
		if p.text != "" {
			all = append(all, p)
		}
		p = piece{}
	}
	for i, line := range lines {
		for n, part := range parts(line) {
			if p.figures != figures[i] || len(p.text)+len("\n")+len(part) > sectionLimit-2*len(codeFence+"\n") {
				end()
			}
			if p.text == "" {
				p.text, p.figures, p.begins = part, figures[i], len(all) == 0
			} else {
				p.text += "\n" + part
			}
			if c, ok := offered[i]; ok && n == 0 {
				p.choices = append(p.choices, c)
			}
		}
	}
	end()
	return all
}

// partLimit is the most bytes of a line, escaped, before it is divided.
const partLimit = 2400

// parts escapes a line and divides it, if it is too long for a section, at a
// space, or where there is none between two characters.
func parts(line string) []string {
	var all []string
	for {
		n, space, size := 0, 0, 0
		for n < len(line) {
			r, width := utf8.DecodeRuneInString(line[n:])
			if size += len(escape(line[n : n+width])); size > partLimit {
				break
			}
			if n += width; r == ' ' {
				space = n
			}
		}
		if n == len(line) {
			return append(all, escapeLine(line))
		}
		if space > 0 && strings.TrimSpace(line[:space]) != "" {
			n = space
		}
		all = append(all, escapeLine(strings.TrimRight(line[:n], " ")))
		line = line[n:]
	}
}
