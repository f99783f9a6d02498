package slack

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"pottle/bot"
)

// offerSign stands in a button's value between what pressing it says and what
// suggestion it stands for.
const offerSign = " #"

// offered stands for the text of suggestions in the value of a button.
func offered(texts ...string) string {
	sum := sha256.Sum256([]byte(strings.Join(texts, "\n")))
	return hex.EncodeToString(sum[:6])
}

// noOffer answers a button that stands below suggestions that are over.
const noOffer = "Nothing was changed: this suggestion is no longer on offer, because the recipe changed or others were made since. Ask again, such as \"suggest\" or \"cut sodium\", and press one of the new buttons."

// chosen finds what a button stands for among the suggestions on offer and has m
// say it. It gives false if it is not among them.
func (s *Server) chosen(m *said, talk *bot.Conversation) bool {
	now := talk.Offered()
	if m.offer == offered(now...) && m.text == applyAll {
		return true
	}
	for i, text := range now {
		if m.offer == offered(text) {
			m.text = fmt.Sprintf("apply %d", i+1)
			return true
		}
	}
	return false
}

const applyAll = "apply all"
