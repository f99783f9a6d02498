package engine

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"pottle/fooddata"
)

// The sources of the cautions. "From memory" marks what was not read again in
// a document when this table was written.
const (
	fromAllergenLaw = "FALCPA 2004 (21 USC 321(qq)) and FASTER Act 2021 (Public Law 117-11), from memory"
	fromMolluscs    = "FALCPA 2004 names crustacean shellfish only, from memory"
	fromGlutenRule  = "21 CFR 101.91 (78 FR 47178); what holds gluten unseen, from memory"
	fromOats        = "21 CFR 101.91 (78 FR 47178); cross-contact and pure oats, from memory"
	fromRetention   = "USDA Table of Nutrient Retention Factors, Release 6; who should ask, from memory"
	fromRawEgg      = "USDA FSIS and FDA on raw egg, from memory"
	fromRawMeat     = "FDA, advice for people at higher risk, from memory"
	fromRawFlour    = "FDA on raw flour, from memory"
	fromBadBugBook  = "FDA, Bad Bug Book, phytohaemagglutinin, from memory"
	fromHoney       = "CDC, preventing botulism, and American Academy of Pediatrics, from memory"
	fromHigherRisk  = "FDA, advice for people at higher risk, from memory"
	fromDeliMeat    = "FDA and USDA FSIS, advice for people at higher risk, from memory"
	fromFishAdvice  = "FDA and EPA, advice about eating fish, from memory"
	fromRetinol     = "advice on retinol in pregnancy, from memory"
	fromGrapefruit  = "FDA, grapefruit juice and some drugs do not mix, from memory; the number, https://pmc.ncbi.nlm.nih.gov/articles/PMC3589309"
	fromVitaminK    = "NIH Office of Dietary Supplements, vitamin K, from memory"
	fromPotassium   = "National Kidney Foundation on salt substitutes, and the labels of these medicines, from memory"
	fromOtherFlags  = "from memory"
	fromTemperature = "USDA FSIS, safe minimum internal temperature chart, from memory"
	fromChart       = "USDA FSIS, safe minimum internal temperature chart, from memory"
	fromLeftovers   = "USDA FSIS, leftovers and food safety, from memory; University of Illinois Extension, https://extension.illinois.edu/food-safety/leftovers"
	fromStorageMemo = "USDA FSIS, from memory"
	fromCanning     = "USDA Complete Guide to Home Canning, from memory"
	fromGarlicOil   = "USDA and extension advice on home canning, from memory"
)

// verdict is what words of a line tell of a subject.
type verdict uint8

const (
	notSaid    verdict = iota // nothing
	lookAlike                 // a look-alike: the words mean another food
	mayContain                // may contain
	doesContain
)

// wordRules are the rows of one subject of cautions.tsv.
type wordRules struct {
	phrases map[string][]rulePhrase // by first word, the longest first
	pairs   []rulePair
}

type rulePhrase struct {
	words   []string
	verdict verdict
}

// rulePair needs two phrases in one line.
type rulePair struct {
	a, b    []string
	verdict verdict
}

//go:embed cautions.tsv
var cautionsTSV string

// cautionRules returns the rules of a subject. It panics for a subject that
// the table does not have, which is a mistake in this package.
func cautionRules(subject string) *wordRules {
	r, ok := readCautions()[subject]
	if !ok {
		panic("engine: cautions.tsv has no " + subject)
	}
	return r
}

var readCautions = sync.OnceValue(func() map[string]*wordRules {
	rules, err := parseCautions(cautionsTSV)
	if err != nil {
		panic("engine: " + err.Error()) // only for a program built with a damaged table
	}
	return rules
})

// parseCautions reads the table. It returns an error that names the line if a
// row does not have four columns, a known verdict and a source.
func parseCautions(text string) (map[string]*wordRules, error) {
	verdicts := map[string]verdict{"contains": doesContain, "may contain": mayContain, "not": lookAlike}
	rules := make(map[string]*wordRules)
	number := 0
	for row := range strings.Lines(text) {
		number++
		row = strings.TrimRight(row, "\n")
		if row == "" || strings.HasPrefix(row, "#") {
			continue
		}
		cells := strings.Split(row, "\t")
		if len(cells) != 4 || cells[0] == "" || verdicts[cells[1]] == notSaid || cells[3] == "" {
			return nil, fmt.Errorf("cautions.tsv line %d: want subject, verdict, words and source", number)
		}
		r := rules[cells[0]]
		if r == nil {
			r = &wordRules{phrases: make(map[string][]rulePhrase)}
			rules[cells[0]] = r
		}
		for _, entry := range strings.Split(cells[2], ";") {
			if err := r.add(strings.TrimSpace(entry), verdicts[cells[1]]); err != nil {
				return nil, fmt.Errorf("cautions.tsv line %d: %w", number, err)
			}
		}
	}
	for _, r := range rules {
		for first := range r.phrases {
			slices.SortStableFunc(r.phrases[first], func(x, y rulePhrase) int { return len(y.words) - len(x.words) })
		}
	}
	return rules, nil
}

// add puts in one entry: a phrase, words with a slash standing for either, or
// two phrases joined by a plus sign.
func (r *wordRules) add(entry string, v verdict) error {
	if first, second, ok := strings.Cut(entry, " + "); ok {
		for _, a := range eitherWords(first) {
			for _, b := range eitherWords(second) {
				r.pairs = append(r.pairs, rulePair{a, b, v})
			}
		}
		return nil
	}
	for _, words := range eitherWords(entry) {
		if len(words) == 0 {
			return fmt.Errorf("%q has no words", entry)
		}
		for _, p := range r.phrases[words[0]] {
			if slices.Equal(p.words, words) {
				return fmt.Errorf("%q stands twice", entry)
			}
		}
		r.phrases[words[0]] = append(r.phrases[words[0]], rulePhrase{words, v})
	}
	return nil
}

// eitherWords writes out "a/b c" as "a c" and "b c".
func eitherWords(entry string) [][]string {
	all := [][]string{nil}
	for field := range strings.FieldsSeq(entry) {
		var next [][]string
		for _, words := range all {
			for _, w := range strings.Split(field, "/") {
				next = append(next, append(slices.Clone(words), fooddata.Normalise(w)...))
			}
		}
		all = next
	}
	return all
}

// ruleHit is where a phrase was found.
type ruleHit struct {
	from, to int
	verdict  verdict
}

// hits returns the phrases in words, the longest at each place, none of them
// overlapping.
func (r *wordRules) hits(words []string) []ruleHit {
	var found []ruleHit
	for i := 0; i < len(words); {
		step := 1
		for _, p := range r.phrases[words[i]] {
			if i+len(p.words) <= len(words) && slices.Equal(words[i:i+len(p.words)], p.words) {
				found = append(found, ruleHit{i, i + len(p.words), p.verdict})
				step = len(p.words)
				break
			}
		}
		i += step
	}
	return found
}

// in returns the strongest verdict that the words call for.
func (r *wordRules) in(words []string) verdict {
	v := notSaid
	for _, h := range r.hits(words) {
		v = max(v, h.verdict)
	}
	for _, p := range r.pairs {
		if p.verdict > v && hasPhrase(words, p.a) && hasPhrase(words, p.b) {
			v = p.verdict
		}
	}
	return v
}

// hasPhrase reports whether phrase occurs in words.
func hasPhrase(words, phrase []string) bool {
	for i := 0; i+len(phrase) <= len(words); i++ {
		if slices.Equal(words[i:i+len(phrase)], phrase) {
			return true
		}
	}
	return false
}
