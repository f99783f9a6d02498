package engine

import (
	"fmt"
	"slices"

	"pottle/fooddata"
)

// kcalPerGramAlcohol is the energy of alcohol in the table (USDA Agriculture
// Handbook 74: 6.93 kcal/g).
const kcalPerGramAlcohol = 6.93

// evaporating are the methods for which the table's times for alcohol stand:
// baked or simmered, the alcohol stirred in. The others among them are moist or
// pan heat of the same kind (common practice, no source).
var evaporating = map[string]bool{byBaked: true, byRoasted: true, bySimmered: true, byBoiled: true, byHeated: true, bySauteed: true, byFried: true, byStirFried: true}

// alcohol takes off the alcohol that cooking drives out, with its energy; the
// drink's sugar stays.
func (r *cookingReport) alcohol(l *Line, f fate) {
	had, ok := l.per100(fooddata.Alcohol).Value()
	if !ok || had == 0 {
		return
	}
	row, how, ok := alcoholRow(f)
	if !ok {
		r.say(reportAlcohol, l, "%s", how)
		return
	}
	l.loseAlcohol(row.factors["ALC"])
	if !slices.Contains(r.alcoholy, l.Food.Name()) {
		r.alcoholy = append(r.alcoholy, l.Food.Name())
	}
	r.say(reportAlcohol, l, "%.0f %% of the alcohol left, %s, row %q", row.factors["ALC"]*100, how, row.usda)
}

// loseAlcohol leaves a share of the line's alcohol and takes the energy of the
// rest off the line's energy.
func (l *Line) loseAlcohol(left float64) {
	alcohol, _ := l.per100(fooddata.Alcohol).Value()
	if energy, ok := l.per100(fooddata.Energy).Value(); ok && energy > 0 {
		l.keep(fooddata.Energy, max(0, 1-kcalPerGramAlcohol*alcohol*(1-left)/energy))
	}
	l.keep(fooddata.Alcohol, left)
}

// alcoholRow chooses the row for alcohol that has gone through f: of those that
// fit, the one that leaves least. It also says how it was chosen or why there
// is none.
func alcoholRow(f fate) (row retentionRow, how string, ok bool) {
	minutes, untold, other := 0, false, ""
	baking := 0
	add := func(method string, minutes int, words string) {
		if r, found := retention("alcohol", method, minutes); found && (!ok || r.factors["ALC"] < row.factors["ALC"]) {
			row, how, ok = r, words, true
		}
	}
	for _, h := range f.heats {
		switch {
		case h.method == byFlamed:
			add(byFlamed, 0, byFlamed)
		case !evaporating[h.method]:
			other = h.method
		case h.minutes == 0:
			untold = true
		default:
			minutes += h.minutes
			if h.method == byBaked || h.method == byRoasted {
				baking += h.minutes
			}
		}
	}
	if f.overnight {
		add(byStoredOvernight, 0, byStoredOvernight)
	}
	switch {
	case f.onTop && baking > 0:
		add(byNotStirredIn, baking, fmt.Sprintf("baked %s, not stirred in", minutesInWords(baking)))
	case minutes >= 15:
		add(bySimmered, minutes, "heated for "+minutesInWords(minutes))
	case minutes > 0:
		add(byOffTheHeat, 0, fmt.Sprintf("heated for %s, less than the table's shortest time", minutesInWords(minutes)))
	case f.off && len(f.heats) == 0:
		add(byOffTheHeat, 0, "added off the heat")
	}
	switch {
	case ok && untold:
		how += ", another time is not told"
	case ok:
	case untold:
		how = "all of the alcohol is counted, as the time on the heat is not told"
	case other != "":
		how = fmt.Sprintf("all of the alcohol is counted, as no factor is known when %s", other)
	case f.onTop && baking > 0:
		how = "all of the alcohol is counted, as no factor is known when baked less than 25 minutes, not stirred in"
	default:
		how = "all of the alcohol is counted, as nothing says that it is heated"
	}
	return row, how, ok
}
