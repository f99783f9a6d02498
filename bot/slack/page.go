package slack

import (
	"strings"

	"github.com/slack-go/slack"

	"pottle/bot"
)

// page is a post as it is filled.
type page struct {
	text    strings.Builder
	section strings.Builder // not yet a block
	blocks  []slack.Block
	pending []choice // buttons that stand below section
	buttons int
}

func newPage() *page { return &page{} }

// reminder is what stands at the end of every post.
var reminder = escape(bot.Reminder)

// fits reports whether all of ps can be added, and the reminder after them.
// Each takes at most three blocks: what came before it, itself, its buttons.
func (p *page) fits(ps ...piece) bool {
	size, blocks := p.text.Len()+len("\n\n")+len(reminder), len(p.blocks)+3
	for _, piece := range ps {
		size += piece.size()
		blocks += 2 + len(piece.choices)/buttonsInBlock
	}
	return size <= textLimit && blocks <= blockLimit
}

// add puts piece at the end.
func (p *page) add(piece piece) {
	between := "\n"
	if piece.begins {
		between = "\n\n"
	}
	if p.text.Len() > 0 {
		p.text.WriteString(between)
	}
	p.text.WriteString(piece.shown())
	if piece.figures || p.section.Len()+len(between)+len(piece.text) > sectionLimit {
		p.flush()
	}
	if piece.figures {
		p.blocks = append(p.blocks, section(piece.shown()))
		return
	}
	if p.section.Len() > 0 {
		p.section.WriteString(between)
	}
	p.section.WriteString(piece.text)
	if p.pending = append(p.pending, piece.choices...); len(p.pending) > 0 {
		p.flush()
	}
}

// flush makes a block of section, and of the buttons below it.
func (p *page) flush() {
	if p.section.Len() > 0 {
		p.blocks = append(p.blocks, section(p.section.String()))
		p.section.Reset()
	}
	for len(p.pending) > 0 {
		n := min(len(p.pending), buttonsInBlock)
		p.blocks = append(p.blocks, p.row(p.pending[:n]))
		p.pending = p.pending[n:]
	}
}

// message ends the page with the reminder.
func (p *page) message() Message {
	p.flush()
	if p.text.Len() > 0 {
		p.text.WriteString("\n\n")
	}
	p.text.WriteString(reminder)
	return Message{Text: p.text.String(), Blocks: append(p.blocks, section(reminder))}
}

// section is a block of text that is shown whole, without links that nobody
// made.
func section(text string) *slack.SectionBlock {
	return slack.NewSectionBlock(&slack.TextBlockObject{Type: slack.MarkdownType, Text: text, Verbatim: true}, nil, nil,
		slack.SectionBlockOptionExpand(true))
}
