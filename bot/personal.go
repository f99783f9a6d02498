package bot

import (
	"regexp"
	"slices"
	"strings"
)

// personalPatterns are what looks like a client's identity in something to be
// saved: e-mail addresses, telephone numbers, dates of birth, record numbers,
// a named patient.
var personalPatterns = []*regexp.Regexp{
	regexp.MustCompile(`[\w.+-]+@[\w-]+\.[\w.]+`),
	regexp.MustCompile(`(?i)\b(?:tel|phone|mobile|call)[:.]?\s*\+?[\d ()./-]{6,}\d|\+\d[\d ()/-]{7,}\d|\(\d{3}\)\s*\d{3}[- ]\d{4}|\b\d{3}[-.]\d{3}[-.]\d{4}\b`),
	regexp.MustCompile(`(?i)\b(?:dob|d\.o\.b\.?|date of birth|born)[:\s]+(?:on )?[\w./, -]*\d{2,4}`),
	regexp.MustCompile(`(?i)\b(?:mrn|record (?:no|number)|patient (?:no|number|id)|nhs (?:no|number))[.:#\s]*[A-Z]*[\d-]{4,}`),
	regexp.MustCompile(`\b(?:[Pp]atient|[Cc]lient|PATIENT|CLIENT)[: ]+(?:(?:Mr|Mrs|Ms|Miss|Dr)\.? )?[A-Z][\p{L}'-]+(?: [A-Z][\p{L}'-]+)?`),
	regexp.MustCompile(`\b(?:Mr|Mrs|Ms|Miss)\.? [A-Z][\p{L}'-]+`),
}

// personal finds what looks like an identity in the recipe in hand, in its
// versions' words, or in a name.
func (c *Conversation) personal(name string) []string {
	texts := []string{name}
	for _, v := range c.versions {
		texts = append(texts, v.recipe.String(), v.said)
	}
	return personalIn(texts...)
}

// personalIn finds what looks like an identity, each once.
func personalIn(texts ...string) []string {
	var found []string
	for _, text := range texts {
		for _, p := range personalPatterns {
			for _, m := range p.FindAllString(text, -1) {
				if !slices.Contains(found, m) {
					found = append(found, m)
				}
			}
		}
	}
	return found
}

// withoutPersonal takes out what looks like an identity.
func withoutPersonal(text string) string {
	for _, p := range personalPatterns {
		text = p.ReplaceAllString(text, "[left out]")
	}
	return text
}

// nameWithoutPersonal takes out what looks like an identity from a name, with the
// word that led to it.
func nameWithoutPersonal(name string) string {
	for _, p := range personalPatterns {
		name = p.ReplaceAllString(name, "")
	}
	words := strings.Fields(name)
	for len(words) > 0 && slices.Contains([]string{"for", "of", "by", "from", "-", ","}, strings.ToLower(words[len(words)-1])) {
		words = words[:len(words)-1]
	}
	return strings.Trim(strings.Join(words, " "), " ,;-")
}
