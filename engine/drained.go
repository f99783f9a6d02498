package engine

import (
	"fmt"
	"strings"

	"pottle/fooddata"
)

// drained gives the figures of a canned legume without its liquid where the
// table has only the two together: the beans as boiled, with the can's
// sodium less what drains and rinses away.
type drained struct {
	beans  fooddata.Food // boiled without salt
	can    fooddata.Food // solids and liquid
	sodium float64       // share of the can's sodium per gram that stays
}

// What draining leaves.
//
// Sodium: 89 % after draining and 79 % after draining and rinsing, for equal
// weights of drained beans and of a can's whole contents. These are the means
// of the three legumes for which SR28 has all three (kidney beans 16034, 16145,
// 16335; pinto beans 16044, 16146, 16345; chickpeas 16058, 16358, 16359). With
// the liquid gone, a drained can then holds about 53 %, a rinsed one 47 % of
// the can's sodium. Studies report 64 % and 59 % (Jones and Mount 2009; Duyff,
// Mount and Jones 2011): the true figure may be somewhat higher.
//
// Solids: about 60 % of the net weight of canned legumes and vegetables (SR28's
// own weights of a drained can against its net contents: chickpeas 57 %, kidney
// beans 61 %), about 75 % of canned fish (common practice, no source).
const (
	sodiumDrained = 0.89
	sodiumRinsed  = 0.79
	solidsOfCan   = 0.60
	solidsOfFish  = 0.75
)

func (d *drained) per100(n fooddata.Nutrient) fooddata.Amount {
	if n != fooddata.Sodium {
		return d.beans.Per100g(n)
	}
	if v, ok := d.can.Per100g(n).Value(); ok {
		return fooddata.Known(v * d.sodium)
	}
	return fooddata.Amount{}
}

// fromCan reports whether f is sold in a can.
func fromCan(f fooddata.Food) bool {
	return f.State() == fooddata.Canned || f.Group() == "Legumes and Legume Products" && strings.Contains(f.Name(), "canned")
}

// solids returns the boiled legume that stands for a canned one without its
// liquid; it returns no food where the table has it drained, or not boiled.
func (e *Engine) solids(f fooddata.Food) fooddata.Food {
	if !fromCan(f) || f.Group() != "Legumes and Legume Products" || !f.CannedLiquid() {
		return fooddata.Food{}
	}
	beans, _ := e.boiled(f)
	return beans
}

// drain takes the liquid off a can and changes to drained figures. Solids is
// what [Engine.solids] gives. Rinsed tells that it is rinsed too, and only that
// nothing is said of draining.
func (e *Engine) drain(l *Line, w *weight, solids fooddata.Food, rinsed, only bool) {
	f := l.Food
	legume := f.Group() == "Legumes and Legume Products"
	fish := f.Group() == "Finfish and Shellfish Products"
	if !fromCan(f) {
		return
	}
	if only {
		w.assumed = append(w.assumed, "rinsed: taken as drained too")
	}
	if legume && !f.CannedLiquid() && !strings.Contains(strings.ToLower(f.Description()), "drained") { // baked beans
		w.assumed = append(w.assumed, "counted with all that is in the can")
		return
	}
	if said := strings.ToLower(f.Description()); rinsed && strings.Contains(said, "drained") && !strings.Contains(said, "rinsed") {
		w.assumed = append(w.assumed, "figures of drained, not rinsed: rinsing takes off some more sodium")
	}
	if w.fromCan && w.net {
		share := solidsOfCan
		if fish {
			share = solidsOfFish
		}
		w.grams = w.grams.times(share)
		w.exact = false
		w.assumed = append(w.assumed, fmt.Sprintf("drained: %.0f %% of the can's weight kept", share*100))
		w.sure = min(w.sure, assumedSize)
	}
	if !legume || !f.CannedLiquid() {
		return
	}
	if solids.IsZero() {
		w.assumed = append(w.assumed, "figures are those of beans with their liquid")
		return
	}
	l.drained = &drained{beans: solids, can: f, sodium: sodiumDrained}
	how := "drained"
	if rinsed {
		l.drained.sodium = sodiumRinsed
		how = "rinsed"
	}
	w.assumed = append(w.assumed, fmt.Sprintf("figures of boiled beans, with %.0f %% of the canned sodium left when %s", l.drained.sodium*100, how))
}

// boiled finds the same legume boiled without salt.
func (e *Engine) boiled(f fooddata.Food) (fooddata.Food, bool) {
	for _, other := range e.table.Family(f) {
		if other.State() == fooddata.Cooked && strings.Contains(other.Description(), "without salt") {
			return other, true
		}
	}
	kind, _, _ := strings.Cut(f.Description(), ", canned")
	for other := range e.table.All() {
		if other.Description() == kind+", cooked, boiled, without salt" {
			return other, true
		}
	}
	return fooddata.Food{}, false
}
