package engine

import (
	"maps"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Team is what a team has of its own.
type Team struct {
	// Foods are the team's foods (see fooddata.NewTable), or nil. Their names go
	// before the same names of the table.
	Foods *fooddata.Table
	// Words say what bare names mean to the team: "milk" → "skim milk". They are
	// names, of one of the team's foods or of the table's, in any spelling that
	// fooddata.Normalise makes one of. A meaning is not looked up in Words again.
	Words map[string]string
}

// team is a Team in the form that matching needs. The zero team has nothing.
type team struct {
	foods   *fooddata.Table
	spelled map[string]fooddata.Entry // names of foods by how a line with them reads
	words   map[string]teamWord       // by the words in normal form, joined by spaces
}

// teamWord is what a name means to a team.
type teamWord struct {
	said  string   // the name as the team wrote it
	means []string // in normal form
}

// is writes "milk is skim milk, as the team has it".
func (w teamWord) is(name string) string {
	verb := " is "
	last := w.said[strings.LastIndex(w.said, " ")+1:]
	if fooddata.Singular(last) != last {
		verb = " are "
	}
	return w.said + verb + name + ", as the team has it"
}

// With returns an Engine that works with the foods and words of t, and with the
// table of e for all else; see ForTeam for one that is asked for again and again.
// It has a cache of its own, as large as that of e, and
// forgets what another team told e. Neither e nor t is changed, and changes of t
// after the call do not matter.
func (e *Engine) With(t Team) *Engine {
	own := newEngine(e.table, e.size, e.teams)
	own.team = team{foods: t.Foods, spelled: make(map[string]fooddata.Entry), words: make(map[string]teamWord)}
	if t.Foods != nil {
		for entry := range t.Foods.Entries() {
			if items := grammar.ParseLine("1 serving " + entry.Name).Items; len(items) == 1 {
				own.team.spelled[newQuery(items[0]).spelling()] = entry
			}
		}
	}
	for _, said := range slices.Sorted(maps.Keys(t.Words)) { // if two are one, the last in order counts
		key, means := fooddata.Normalise(said), fooddata.Normalise(t.Words[said])
		if len(key) > 0 && len(means) > 0 {
			own.team.words[strings.Join(key, " ")] = teamWord{strings.ToLower(strings.Join(strings.Fields(said), " ")), means}
		}
	}
	return own
}

// lookUp looks a name up in its order: the team's, else the table's.
func (e *Engine) lookUp(name string) (fooddata.Entry, bool) {
	if entry, ok := e.team.named(name); ok {
		return entry, true
	}
	return e.table.Named(name)
}

func (t team) named(name string) (fooddata.Entry, bool) {
	if t.foods == nil {
		return fooddata.Entry{}, false
	}
	return t.foods.Named(name)
}

func (t team) anyOrder(words []string) (fooddata.Entry, bool) {
	if t.foods == nil {
		return fooddata.Entry{}, false
	}
	entry, ok := t.foods.NamedAnyOrder(words)
	return entry, ok && sameHead(entry, words)
}

// teamFirst finds what the team calls by the words: a food of its own by its
// whole name, what a word of its own means, a food of its own by a name that the
// line says in another way. It leaves to others what names no such thing.
func (e *Engine) teamFirst(q query) (Match, bool) {
	if e.team.foods == nil && len(e.team.words) == 0 {
		return Match{}, false
	}
	bare, isWord := e.team.bare(q.words)
	if !isWord {
		if m, ok := e.spelled(q); ok {
			return m, true
		}
	}
	if len(q.shares) > 0 && !wholeByItself[q.words[len(q.words)-1]] {
		if m, ok := e.completed(q); ok {
			return e.own(q, m, bare)
		}
	}
	m, ok := e.withTails(q)
	if !ok {
		m, ok = e.withAside(q)
	}
	if ok && !m.Food.Team() { // "milk, skim" is no bare milk
		return e.own(q, m, bare)
	}
	if fuller, is := e.fuller(q, bare); is {
		if own, is := e.own(q, fuller, bare); is {
			return own, true
		}
		return fuller, true
	}
	if ok {
		return m, true
	}
	if m, ok := e.asWord(q, bare, isWord); ok {
		return m, true
	}
	if m, ok := e.named(q); ok {
		return e.own(q, m, bare)
	}
	return Match{}, false
}

// bare returns the name among the words, with or without words of preparation,
// that is a word of the team's, or else a food's; nil if there is none.
func (t team) bare(words []string) (name []string, isWord bool) {
	forms := [][]string{words, withoutPreparation(words)}
	if anotherDish(words) {
		forms = forms[:1]
	}
	for _, form := range forms {
		key := strings.Join(form, " ")
		if _, ok := t.words[key]; ok {
			return form, true
		}
		if _, ok := t.named(key); ok {
			return form, false
		}
	}
	return nil, false
}

// own reports whether a match found by name is for the team to decide: it is a
// food of the team's, or the bare name is one and the line says more.
func (e *Engine) own(q query, m Match, bare []string) (Match, bool) {
	if m.Food.Team() {
		return m, true
	}
	entry, ok := e.team.named(strings.Join(bare, " "))
	if !ok {
		q.canned = false
		entry, ok = e.team.spelled[q.spelling()]
	}
	if ok {
		m.Assumed = append(slices.Clone(m.Assumed), "not the team's own "+entry.Food.Name()+", since the line says more")
	}
	return m, ok
}

// spelled finds a food of the team's by a name that reads as the line does, be
// it one that the reading takes apart: "ready-to-eat lentils".
func (e *Engine) spelled(q query) (Match, bool) {
	entry, ok := e.team.spelled[q.spelling()]
	if !ok {
		return Match{}, false
	}
	m := e.of(entry, q)
	m.heard = slices.Concat(q.tails...)
	if len(e.teamNotes(entry)) == 0 {
		if other, ok := (&Engine{table: e.table}).named(q); ok {
			m.Assumed = append(m.Assumed, "the team's own "+entry.Food.Name()+", not "+other.Food.Name())
		}
	}
	return m, true
}

// spelling is the same for queries whose names read alike, whatever the amount
// but for that of a can.
func (q query) spelling() string {
	q.metric, q.weighed, q.shares = false, false, nil
	return q.key()
}

// fuller finds the food of a longer name that a word beside the bare one makes:
// "milk, fresh whole" is whole milk.
func (e *Engine) fuller(q query, bare []string) (Match, bool) {
	if bare == nil {
		return Match{}, false
	}
	for _, said := range slices.Concat([][]string{q.words}, q.tails, q.aside) {
		if remarks[said[0]] || slices.ContainsFunc(said, func(w string) bool { return orNot[w] }) {
			continue
		}
		for _, w := range said {
			if slices.Contains(bare, w) {
				continue
			}
			if entry, ok := e.entry(append([]string{w}, bare...)); ok {
				m := e.of(entry, q)
				m.heard = []string{w}
				return m, true
			}
		}
	}
	return Match{}, false
}

// orNot are words that keep a remark from saying which kind is meant.
var orNot = wordSet("or not no non without never any either")

// asWord reads a bare name by the team's words: "milk", "cold milk", but neither
// "coconut milk" nor, unless its meaning comes dried too, "milk, dried".
func (e *Engine) asWord(q query, bare []string, isWord bool) (Match, bool) {
	if !isWord {
		return Match{}, false
	}
	if len(bare) < len(q.words) {
		if _, known := e.entry(q.words); known {
			return Match{}, false
		}
	}
	word := e.team.words[strings.Join(bare, " ")]
	for _, with := range q.contexts() {
		if _, meant := e.entry(slices.Concat(with, word.means)); meant || len(with) == 0 {
			break
		}
		for _, words := range [][]string{q.words, bare} {
			if _, known := e.entry(slices.Concat(with, words)); known {
				return Match{}, false
			}
		}
	}
	m, ok := e.named(query{words: word.means, state: q.state, canned: q.canned, weighed: q.weighed})
	if !ok {
		if m, ok = e.named(q); ok {
			m.Assumed = append(slices.Clone(m.Assumed), "the team has "+word.said+" as "+strings.Join(word.means, " ")+", which is not in the table")
		}
		return m, ok
	}
	m.Confidence = min(m.Confidence, plainName)
	m.Assumed = append([]string{word.is(m.Food.Name())}, standInOnly(m.Assumed)...)
	if len(m.Choices) == 0 {
		m.Choices = e.others(m.Food)
	}
	return m, true
}

// teamNotes says what the reader must know of a food of the team's: that its
// name stands for another food too, and that its energy is worked out.
func (e *Engine) teamNotes(entry fooddata.Entry) []string {
	if !entry.Food.Team() {
		return nil
	}
	var notes []string
	if other, ok := e.table.Named(entry.Name); ok {
		note := "the team's own " + entry.Food.Name()
		if other.Food.Name() != entry.Food.Name() {
			note += ", not " + other.Food.Name()
		}
		notes = append(notes, note)
	}
	if entry.Food.EnergyFromParts() {
		notes = append(notes, "energy of "+entry.Food.Name()+" worked out from its protein, fat and carbohydrate")
	}
	return notes
}

// withTeamChoices adds the team's foods that have all the words to what may be
// meant where no name fits.
func (e *Engine) withTeamChoices(q query, m Match) Match {
	if e.team.foods == nil {
		return m
	}
	words := withoutPreparation(q.words)
	var own []fooddata.Food
	for _, c := range e.team.foods.Search(words, maxChoices) {
		if len(c.Missing) == 0 {
			own = append(own, c.Food)
		}
	}
	m.Choices = append(own, m.Choices...)
	m.Choices = m.Choices[:min(len(m.Choices), maxChoices)]
	return m
}
