package engine

import (
	_ "embed"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"pottle/fooddata"
)

// refuse is a share of a weight as bought that is not eaten.
type refuse struct {
	percent float64
	parts   []refusePart
	what    string
	source  string // "" if SR28 has it for the food itself
}

type refusePart struct {
	what    string // "bone", "skin and separable fat"
	percent float64
}

// refusePattern finds the parts of a refuse: "32% bone", "bone, 14%".
var refusePattern = regexp.MustCompile(`(\d+(?:\.\d+)?)% ([a-z ]+)|([a-z][a-z ]*?),? *(\d+(?:\.\d+)?)%`)

// refuseOf returns what SR28, or our correction of it, says is thrown away.
func refuseOf(f fooddata.Food) refuse {
	percent, what := f.Refuse()
	r := refuse{percent: percent, what: strings.ToLower(what)}
	sum := 0.0
	for _, m := range refusePattern.FindAllStringSubmatch(r.what, -1) {
		name, share := m[2]+m[3], m[1]+m[4]
		p, err := strconv.ParseFloat(share, 64)
		if err != nil {
			continue
		}
		r.parts = append(r.parts, refusePart{strings.TrimSpace(name), p})
		sum += p
	}
	if len(r.parts) == 0 || sum < percent-3 || sum > percent+3 {
		r.parts = []refusePart{{ownPercent.ReplaceAllString(r.what, "$1"), percent}}
	}
	return r
}

// ownPercent is the share that the source writes after the one thing that is
// thrown away: "bone 21%".
var ownPercent = regexp.MustCompile(`^([^%]*?) ?\d+%$`)

// words names what is thrown away.
func (r refuse) words() string {
	if len(r.parts) > 1 {
		return partsInWords(r.parts)
	}
	if r.what == "" && len(r.parts) == 1 {
		return r.parts[0].what
	}
	return ownPercent.ReplaceAllString(r.what, "$1")
}

// share is the percentage of the parts that are of a kind.
func (r refuse) share(kinds *regexp.Regexp) float64 {
	sum := 0.0
	for _, p := range r.parts {
		if kinds.MatchString(p.what) {
			sum += p.percent
		}
	}
	return sum
}

var (
	bonePart = regexp.MustCompile(`bone|cartilage|hard tissue`)
	skinPart = regexp.MustCompile(`skin|fat`)
)

// edibleRow is a line of edible.tsv.
type edibleRow struct {
	number     string
	percent    float64
	what, way  string
	words, not []string
	source     string
}

//go:embed edible.tsv
var edibleText string

var edibleRows = sync.OnceValue(func() []edibleRow {
	var rows []edibleRow
	for _, f := range tableLines(edibleText, 7) {
		percent, err := strconv.ParseFloat(f[1], 64)
		if err != nil || percent <= 0 || percent >= 100 || !slices.Contains([]string{"taken", "said", "note", "bone"}, f[3]) || f[6] == "" {
			panic(fmt.Sprintf("engine: edible.tsv: %q", f))
		}
		rows = append(rows, edibleRow{f[0], percent, f[2], f[3], splitList(f[4]), splitList(f[5]), f[6]})
	}
	return rows
})

// ownRefuse finds what edible.tsv says of a food that is weighed so, and the way
// it counts; the way is "" if it says nothing.
func (e *Engine) ownRefuse(f fooddata.Food, as weighedItem) (refuse, string) {
	for _, row := range edibleRows() {
		switch {
		case row.number != f.Number() || as.has(row.not...) || len(row.words) > 0 && !as.has(row.words...):
		case row.way == "bone" || row.way == "said" && as.cue == "" && !as.has("whole", "live"):
		case as.cue != "" && row.way == "note":
		default:
			way := row.way
			if way == "said" {
				way = "taken"
			}
			return refuse{percent: row.percent, what: row.what, source: row.source}, way
		}
	}
	return refuse{}, ""
}

func isShell(what string) bool { return strings.Contains(what, "shell") }

// meatOf is the name of a shellfish out of its shell: "mussel meat".
func meatOf(f fooddata.Food) string {
	kind, _, _ := strings.Cut(f.Name(), ",")
	words := slices.DeleteFunc(fooddata.Normalise(kind), func(w string) bool { return w == "meat" })
	return strings.Join(words, " ") + " meat"
}

// withBone gives the refuse of meat that is weighed with its bone: where the
// source's figures are of meat that is sold without, the bone of the like cut is
// added. Of meat that is weighed without its skin the skin's share is not taken.
func withBone(f fooddata.Food, r refuse, as weighedItem) refuse {
	for _, row := range edibleRows() {
		if row.number == f.Number() && row.way == "bone" && r.share(bonePart) == 0 {
			parts := append([]refusePart{{row.what, row.percent}}, r.parts...)
			if r.percent == 0 {
				parts = parts[:1]
			}
			r = refuse{percent: r.percent + row.percent, parts: parts, source: "bone by " + row.source}
		}
	}
	skin := r.share(skinPart)
	if bone := r.share(bonePart); slices.Contains(as.item.Words, "skinless") && skin > 0 && bone > 0 {
		percent := 100 * bone / (100 - skin)
		return refuse{percent: percent, parts: []refusePart{{"bone", percent}}, what: "bone", source: r.source}
	}
	return r
}

func partsInWords(parts []refusePart) string {
	if len(parts) == 1 {
		return parts[0].what
	}
	var said []string
	for _, p := range parts {
		said = append(said, fmt.Sprintf("%s %.0f%%", p.what, p.percent))
	}
	return strings.Join(said, ", ")
}
