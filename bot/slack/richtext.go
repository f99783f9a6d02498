package slack

import (
	"fmt"
	"strings"

	"github.com/slack-go/slack"
)

// RichText gives what was typed, from the blocks of a message, for the case
// that its text has lost the lists: an item of a list is a line, with its
// number or a hyphen. It is empty if no block is rich text.
func RichText(blocks []slack.Block) string {
	var lines []string
	for _, b := range blocks {
		if rich, ok := b.(*slack.RichTextBlock); ok && rich != nil {
			for _, e := range rich.Elements {
				lines = append(lines, elementText(e, 0)...)
			}
		}
	}
	return trim(unescaper.Replace(tidy(strings.Join(lines, "\n"))))
}

// deepestList is how far lists in lists are followed.
const deepestList = 10

// elementText gives the lines of a section, a list, a quote or preformatted
// text.
func elementText(e slack.RichTextElement, depth int) []string {
	switch e := e.(type) {
	case *slack.RichTextSection:
		return []string{strings.TrimSuffix(words(e.Elements), "\n")}
	case *slack.RichTextQuote:
		return []string{strings.TrimSuffix(words(e.Elements), "\n")}
	case *slack.RichTextPreformatted:
		return []string{strings.TrimSuffix(words(e.Elements), "\n")}
	case *slack.RichTextList:
		if depth == deepestList {
			return nil
		}
		var lines []string
		for i, item := range e.Elements {
			bullet := "- "
			if e.Style == slack.RTEListOrdered {
				bullet = fmt.Sprintf("%d. ", e.Offset+i+1)
			}
			text := strings.Join(elementText(item, depth+1), "\n")
			lines = append(lines, strings.Repeat("  ", min(max(e.Indent, 0), deepestList))+bullet+strings.ReplaceAll(text, "\n", " "))
		}
		return lines
	}
	return nil
}

// words gives the text of the parts of a line, with tildes around what is struck
// through; a person or a group that is mentioned is left out, with the space
// after.
func words(parts []slack.RichTextSectionElement) string {
	var b strings.Builder
	left := false
	add := func(s string) {
		if left {
			s = strings.TrimPrefix(s, " ")
		}
		left = false
		b.WriteString(s)
	}
	for _, part := range parts {
		switch p := part.(type) {
		case *slack.RichTextSectionTextElement:
			if p.Style != nil && p.Style.Strike {
				add("~" + strings.ReplaceAll(p.Text, "\n", "~\n~") + "~")
			} else {
				add(p.Text)
			}
		case *slack.RichTextSectionLinkElement:
			if p.Text != "" {
				add(p.Text)
			} else {
				add(strings.TrimPrefix(p.URL, "mailto:"))
			}
		case *slack.RichTextSectionTagElement:
			add(p.Text)
		case *slack.RichTextSectionDateElement:
			if p.Fallback != nil {
				add(*p.Fallback)
			}
		case *slack.RichTextSectionEmojiElement:
			add(":" + p.Name + ":")
		default:
			left = true
		}
	}
	return strings.ReplaceAll(b.String(), "~~", "") // of two parts struck through one after the other
}
