package engine

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"pottle/fooddata"
)

//go:embed food_notes.tsv
var foodNotesTSV string

// foodNote is a row of food_notes.tsv.
type foodNote struct {
	words [][]string // of which one must be in the line; none if any line will do
	where string
	say   string
}

// foodNotes are the rows of food_notes.tsv by the food's number. It panics for a
// row at fault, which is a mistake in this package.
var foodNotes = sync.OnceValue(func() map[string][]foodNote {
	notes := make(map[string][]foodNote)
	for i, row := range strings.Split(foodNotesTSV, "\n") {
		if row == "" || row[0] == '#' {
			continue
		}
		cols := strings.Split(row, "\t")
		if len(cols) != 5 || !slices.Contains([]string{"any", "volume", "metric"}, cols[2]) {
			panic(fmt.Sprintf("engine: food_notes.tsv:%d: %q", i+1, row))
		}
		n := foodNote{where: cols[2], say: cols[3]}
		if cols[1] != "-" {
			for _, words := range strings.Split(cols[1], ";") {
				n.words = append(n.words, fooddata.Normalise(words))
			}
		}
		for _, number := range strings.Split(cols[0], ",") {
			notes[number] = append(notes[number], n)
		}
	}
	return notes
})

// noteFood adds to the assumptions of a line what is to be said of its food.
func (l *Line) noteFood(q query) {
	said := slices.Concat(append([][]string{q.words, q.state}, slices.Concat(q.tails, q.aside)...)...)
	l.lacks = notHeld(said, l.Food)
	if len(q.treated) > 0 {
		l.lacks = append(l.lacks, takenByLeaching...)
		l.Assumed = append(l.Assumed, fmt.Sprintf("%s is not in the table: what is left of potassium, phosphorus and other minerals and of vitamins is not known; the rest as %s", quoted(q.treated), l.Food.Name()))
	}
	for _, n := range l.lacks {
		if n == fooddata.Lactose || n == fooddata.Calcium {
			l.Assumed = append(l.Assumed, "its "+n.Name()+" is not known")
		}
	}
	for _, n := range foodNotes()[l.Food.Number()] {
		met := len(n.words) == 0 || slices.ContainsFunc(n.words, func(words []string) bool {
			return !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(said, w) })
		})
		switch {
		case !met, n.where == "metric" && !q.metric, n.where == "volume" && !inVolume(l.Item.Amount), n.where == "volume" && slices.ContainsFunc(said, flaked):
			continue
		}
		if !slices.Contains(l.Assumed, n.say) {
			l.Assumed = append(l.Assumed, n.say)
		}
	}
}

// takenByLeaching are the nutrients that soaking and boiling in much water take from
// a cut vegetable in a share that the table does not tell.
var takenByLeaching = []fooddata.Nutrient{fooddata.Potassium, fooddata.Phosphorus, fooddata.Magnesium, fooddata.Sodium, fooddata.Zinc, fooddata.Copper, fooddata.Manganese, fooddata.Iron,
	fooddata.VitaminC, fooddata.Folate, fooddata.FolateDFE, fooddata.VitaminB6, fooddata.Thiamin}

// flaked reports a word that tells the light kind of salt.
func flaked(w string) bool { return strings.HasPrefix(w, "flak") }

// notHeld returns the nutrients of which the words tell that the figures of the
// food, which is not what they say, do not hold: the lactose of lactose-free milk,
// what was added to a fortified drink.
func notHeld(said []string, f fooddata.Food) []fooddata.Nutrient {
	if !slices.Contains(said, "lactose") && !slices.Contains(said, "fortified") {
		return nil
	}
	own := fooddata.Normalise(f.Name() + " " + f.Description())
	var list []fooddata.Nutrient
	for i, w := range said {
		switch {
		case w == "lactose" && i+1 < len(said) && (said[i+1] == "free" || said[i+1] == "reduced") && !slices.Contains(own, "lactose"):
			list = append(list, fooddata.Lactose)
		case w == "fortified" && !slices.ContainsFunc(own, func(w string) bool { return w == "fortified" || w == "added" || w == "enriched" }):
			list = append(list, fooddata.Calcium, fooddata.VitaminA, fooddata.VitaminD, fooddata.VitaminE, fooddata.VitaminC, fooddata.VitaminB12, fooddata.Iron, fooddata.Folate, fooddata.FolicAcid, fooddata.FolateDFE)
		}
	}
	return list
}
