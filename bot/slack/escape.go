package slack

import "strings"

// Look-alikes stand for characters that would format a text and that Slack
// gives no way to escape. Clean turns them back, so a reply that is copied into
// a message reads as it was.
const (
	likeBacktick   = "ˋ" // U+02CB
	likeAsterisk   = "∗" // U+2217
	likeUnderscore = "ˍ" // U+02CD
	likeTilde      = "∼" // U+223C
)

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", "`", likeBacktick, "*", likeAsterisk, "_", likeUnderscore, "~", likeTilde)

// escape makes Slack show text as it is: nothing in it is a mention, a link, a
// mark of format or the end of a code block.
func escape(text string) string { return escaper.Replace(text) }

// escapeLine escapes a line; one that begins with > is made no quotation.
func escapeLine(line string) string {
	line = escape(line)
	if strings.HasPrefix(line, "&gt;") {
		return "\u200b" + line
	}
	return line
}
