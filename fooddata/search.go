package fooddata

import (
	"cmp"
	"slices"
	"sync"

	"pottle/fooddata/internal/layout"
)

// Candidate is a food that a search found.
type Candidate struct {
	Food    Food
	Score   float64  // 0 to 1; 1 is a name of the food, word for word
	Missing []string // words of the search that none of the food's names has
}

// How a search weighs what it finds. The weights were set by the cases of
// TestSearch.
const (
	coverBase     = 0.55 // score of a name that has all words and endless others
	descriptionBy = 0.95 // a description is wordier than a name
	notCuratedBy  = 0.90
	treatedBy     = 0.93 // cooked, canned, frozen or dried though nobody asked
	headMissingBy = 0.60 // the last word, which says what the thing is, is missing
	typingErrorBy = 0.80
	unionShare    = 0.25 // how much it counts that other names of the food have a word
	maxQueryWords = 16
)

// Search returns at most limit foods for words in the form that [Normalise]
// gives, the likeliest first. It looks through display names, other names and
// descriptions. A word that occurs nowhere and has five letters or more may
// stand for a word with one letter more, fewer, changed or swapped. The result
// is the same each time. Search returns nothing if no word is found; it reads
// the first 16 words only.
func (t *Table) Search(words []string, limit int) []Candidate {
	words = distinct(words)
	if len(words) > maxQueryWords {
		words = words[:maxQueryWords]
	}
	if len(words) == 0 || limit <= 0 {
		return nil
	}
	hits := hitPool.Get().(*[]hit)
	if n := t.file.NumDocs(); len(*hits) < n {
		*hits = make([]hit, n)
	}
	s := search{file: t.file, words: words, hits: *hits}
	for i, w := range words {
		s.look(i, w)
	}
	candidates := s.candidates(t, limit)
	for _, doc := range s.found {
		s.hits[doc] = hit{}
	}
	hitPool.Put(hits)
	return candidates
}

// hitPool keeps room for hits from one search to the next, all of them zero.
var hitPool = sync.Pool{New: func() any { return new([]hit) }}

func distinct(words []string) []string {
	var list []string
	for _, w := range words {
		if !slices.Contains(list, w) {
			list = append(list, w)
		}
	}
	return list
}

// search is one search under way.
type search struct {
	file  *layout.File
	words []string
	total float32 // weight of all words of the query
	each  [maxQueryWords]float32
	hits  []hit // a doc each, and perhaps room for more
	found []int // docs with a hit
}

// hit is what a doc has of the query.
type hit struct {
	words   uint16  // a bit a word of the query
	cover   float32 // weight of the query words it has, less for typing errors
	matched float32 // weight of its own words that were matched
}

// unknownWeight is the weight, in hundredths, of a query word that no doc has.
const unknownWeight = 600

func (s *search) look(i int, word string) {
	file := s.file
	if at, ok := file.WordIndex(word); ok {
		s.each[i] = float32(file.Word(at).Weight)
		s.total += s.each[i]
		s.post(i, at, 1)
		return
	}
	s.each[i] = unknownWeight
	s.total += unknownWeight
	if len(word) < 5 {
		return
	}
	for at := range file.NumWords() {
		if oneErrorApart(word, file.Text(file.Word(at).Text)) {
			s.post(i, at, typingErrorBy)
		}
	}
}

// post notes for each doc with a vocabulary word that it has query word i.
func (s *search) post(i, vocabulary int, by float32) {
	own := float32(s.file.Word(vocabulary).Weight)
	first, end := s.file.PostingsOf(vocabulary)
	for p := first; p < end; p++ {
		doc := s.file.Posting(p)
		h := &s.hits[doc]
		if h.words == 0 {
			s.found = append(s.found, doc)
		}
		if h.words&(1<<i) != 0 {
			continue
		}
		h.words |= 1 << i
		h.cover += s.each[i] * by
		h.matched += own
	}
}

// candidates makes the best of each food's docs its score.
func (s *search) candidates(t *Table, limit int) []Candidate {
	slices.Sort(s.found) // docs of one food stand together
	var list []scored
	for i := 0; i < len(s.found); {
		food := s.file.Doc(s.found[i]).Food
		end := i
		for end < len(s.found) && s.file.Doc(s.found[end]).Food == food {
			end++
		}
		list = append(list, s.score(food, s.found[i:end]))
		i = end
	}
	slices.SortFunc(list, func(a, b scored) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.food, b.food))
	})
	list = list[:min(limit, len(list))]

	candidates := make([]Candidate, len(list))
	for i, c := range list {
		candidates[i] = Candidate{Food: Food{t, c.food}, Score: float64(c.score)}
		for w, word := range s.words {
			if c.has&(1<<w) == 0 {
				candidates[i].Missing = append(candidates[i].Missing, word)
			}
		}
	}
	return candidates
}

type scored struct {
	food  uint16
	has   uint16 // a bit a query word
	score float32
}

func (s *search) score(food uint16, docs []int) scored {
	c := scored{food: food}
	for _, d := range docs {
		c.has |= s.hits[d].words
	}
	var union float32
	for i := range s.words {
		if c.has&(1<<i) != 0 {
			union += s.each[i]
		}
	}
	record := s.file.Food(int(food))
	for _, d := range docs {
		h, doc := s.hits[d], s.file.Doc(d)
		cover := h.cover
		if union > cover {
			cover += (union - cover) * unionShare * h.cover / s.total
		}
		concise := min(1, h.matched/float32(max(1, doc.Weight)))
		score := cover / s.total * (coverBase + (1-coverBase)*concise)
		if doc.Kind == layout.Description {
			score *= descriptionBy
		}
		c.score = max(c.score, score)
	}
	if c.has&(1<<(len(s.words)-1)) == 0 {
		c.score *= headMissingBy
	}
	if record.Flags&layout.Curated == 0 {
		c.score *= notCuratedBy
	}
	if s.treatedUnasked(State(record.State)) {
		c.score *= treatedBy
	}
	return c
}

// stateWords are the words by which a search asks for a state.
var stateWords = [...][]string{
	Cooked: {"cooked", "boiled", "roasted", "baked", "fried", "grilled", "broiled", "steamed", "braised", "stewed", "microwaved", "toasted", "poached", "scrambled", "hard", "leftover"},
	Dried:  {"dried", "dry", "dehydrated", "powder", "powdered", "ground", "uncooked"},
	Canned: {"canned", "tinned", "can", "jar", "jarred", "tin"},
	Frozen: {"frozen"},
}

func (s *search) treatedUnasked(state State) bool {
	if int(state) >= len(stateWords) || stateWords[state] == nil {
		return false
	}
	for _, w := range s.words {
		if slices.Contains(stateWords[state], w) {
			return false
		}
	}
	return true
}

// oneErrorApart reports whether one letter added, left out, changed or swapped
// with the next makes b of a. Letters are bytes here: the words are folded.
func oneErrorApart(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 || len(a) < 4 {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) < len(b) {
		return a[i:] == b[i+1:]
	}
	if i >= len(a)-1 {
		return i == len(a)-1
	}
	return a[i+1:] == b[i+1:] || a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}
