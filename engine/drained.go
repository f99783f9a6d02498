package engine

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// drained gives the figures of a canned legume without its liquid where the
// table has only the two together: the beans as boiled, with the can's
// sodium less what drains and rinses away. Or it gives those of a canned food
// with its liquid where the table has only the two apart.
type drained struct {
	beans  fooddata.Food // boiled without salt; or the drained food
	can    fooddata.Food // solids and liquid
	sodium float64       // share of the can's sodium per gram that stays
	liquid fooddata.Food // none unless it is eaten too
	share  float64       // of beans in beans and liquid
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
// Solids: what a measure of the food says, if it names the net weight of its can
// ("can, 8 oz drained" of 140 g); else about 60 % of the net weight of canned
// legumes and vegetables (SR28's own weights of a drained can against its net
// contents: chickpeas 57 %, kidney beans 61 %, green beans 60 %, asparagus 60 %),
// about 75 % of canned fish (SR28: pink salmon 76 %, tuna 89 %).
const (
	sodiumDrained = 0.89
	sodiumRinsed  = 0.79
	solidsOfCan   = 0.60
	solidsOfFish  = 0.75
)

func (d *drained) per100(n fooddata.Nutrient) fooddata.Amount {
	if !d.liquid.IsZero() {
		solid, known := d.beans.Per100g(n).Value()
		liquid, both := d.liquid.Per100g(n).Value()
		if !known || !both {
			return fooddata.Amount{}
		}
		return fooddata.Known(d.share*solid + (1-d.share)*liquid)
	}
	if n != fooddata.Sodium {
		return d.beans.Per100g(n)
	}
	if v, ok := d.can.Per100g(n).Value(); ok {
		return fooddata.Known(v * d.sodium)
	}
	return fooddata.Amount{}
}

// solidsOf leaves of the net weight of a can what is eaten of it, where the food
// is never eaten with what it is packed in: tuna, clams, water chestnuts. The net
// weight stays if the line says that it is the drained one.
func (p portioner) solidsOf(t grammar.Term, w *weight) {
	if slices.Contains(p.words, "drained") && slices.Contains(p.words, "weight") {
		w.net = false
		return
	}
	if !containers[t.Measure.Name] {
		return
	}
	share := p.solidsShare(w.grams.Low / ratio(t.Quantity.Low))
	if share == 0 {
		return
	}
	w.net, w.exact = false, false
	if share > 0.98 { // the weight on such a can is the drained one
		return
	}
	w.grams, w.solids = w.grams.times(share), share
	w.sure = min(w.sure, assumedSize)
	w.assumed = append(w.assumed, fmt.Sprintf("drained: %.0f %% of the can's weight kept", share*100))
	if p.food.State() == fooddata.Cooked && strings.Contains(p.food.Description(), "without salt") {
		w.assumed = append(w.assumed, "the salt of the can is not counted")
	}
}

// solidsShare is the share of the net weight of a can that is left when it is
// drained, if the figures of the food are of that, or of the food boiled, or a
// measure of it says so; 0 otherwise. Of several such measures the one nearest to
// net, in grams, counts; if net is 0, the one whose words fit the line best.
func (p portioner) solidsShare(net float64) float64 {
	share, off := 0.0, math.Inf(1)
	for portion := range p.food.Portions() {
		if !containers[portion.Measure] || !drainedOnly(p.food) && !strings.Contains(portion.Detail, "drained") {
			continue
		}
		full, ok := netWeight(portion.Detail)
		if !ok {
			continue
		}
		d := float64(-p.fit(portion))
		if net > 0 {
			d = math.Abs(math.Log(net / full))
		}
		if d < off {
			off, share = d, min(1, float64(portion.Grams)/portion.Amount/full)
		}
	}
	switch {
	case p.food.Group() == "Legumes and Legume Products" && p.food.State() == fooddata.Cooked: // boiled lentils for canned ones
		return solidsOfCan
	case share > 0 || !drainedOnly(p.food):
		return share
	case p.food.Group() == "Finfish and Shellfish Products":
		return solidsOfFish
	}
	return solidsOfCan
}

// withLiquid gives a canned food that is said to be undrained the liquid that its
// figures are without, if the table has it (clams); else it says that the liquid
// is not counted.
func (e *Engine) withLiquid(l *Line, p portioner, w *weight) {
	if !drainedOnly(l.Food) {
		return
	}
	kind, _, _ := strings.Cut(l.Food.Description(), ", canned")
	for liquid := range e.table.All() {
		if liquid.Description() != kind+", canned, liquid" {
			continue
		}
		share := w.solids
		if share == 0 {
			share = p.solidsShare(0)
		}
		if w.fromCan {
			w.grams = w.grams.times(1 / share)
			w.assumed = []string{fmt.Sprintf("with its liquid %s g", show(w.grams.Low))}
		}
		w.assumed = append(w.assumed, fmt.Sprintf("%.0f %% of it taken as drained, the rest as its liquid (USDA %s)", share*100, liquid.Number()))
		l.drained = &drained{beans: l.Food, liquid: liquid, share: share}
		return
	}
	w.assumed = append(w.assumed, "the liquid that it is packed in is not counted")
}

// containers are the measures that hold a food with what it is packed in.
var containers = wordSet("can tin jar")

// netWeight reads the net weight of a can, in grams, from the detail of a measure:
// "8 oz drained", "145 g".
func netWeight(detail string) (float64, bool) {
	words := strings.Fields(strings.NewReplacer(";", " ", ",", " ").Replace(detail))
	for i := 0; i+1 < len(words); i++ {
		n, err := strconv.ParseFloat(words[i], 64)
		if m, ok := grammar.MeasureNamed(words[i+1]); err == nil && n > 0 && ok && m.Kind == grammar.Weight {
			return n * ratio(m.Amount), true
		}
	}
	return 0, false
}

// drainedOnly reports whether the figures of f are of what is left when its can
// is drained.
func drainedOnly(f fooddata.Food) bool {
	return f.State() == fooddata.Canned && strings.Contains(strings.ToLower(f.Description()), "drained")
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

// drainCans drains the cans that the directions drain: "drain and rinse the
// beans". A line that says itself what becomes of its liquid is left as it is, and
// so is one whose liquid is kept.
func (e *Engine) drainCans(a *Analysis, method []string, metric bool) {
	canned := func(l *Line) bool {
		return l.Status == Counted && l.drained == nil && fromCan(l.Food) && !containsAny(itemWords(l.Item), []string{"drained", "rinsed", "undrained"})
	}
	told := func(m string) bool {
		lower := strings.ToLower(m)
		return strings.Contains(lower, "drain") || strings.Contains(lower, "rins")
	}
	if !slices.ContainsFunc(method, told) || !slices.ContainsFunc(a.Lines, func(l Line) bool { return canned(&l) }) {
		return
	}
	steps := readSteps(method)
	k := newPot(a.Lines)
	for i := range steps {
		said := saidIn(&steps[i])
		drains, rinses := saidAny(said, "drain"), saidAny(said, "rinse")
		if !drains && !rinses || strings.Contains(said, " reserv") {
			continue
		}
		object := drainedBy(steps, i)
		if !drains {
			object = afterVerb(&steps[i], "rinse")
		}
		for j := range steps {
			near := steps[j].sentence == steps[i].sentence && strings.HasPrefix(saidIn(&steps[j]), " rinse ")
			rinses = rinses || near && (j > i || len(afterVerb(&steps[j], "rinse")) == 0)
		}
		for _, at := range k.named(&cookStep{words: object}) {
			l := &a.Lines[at]
			if !canned(l) {
				continue
			}
			with := l.Item
			with.Prep, with.Tail = append(slices.Clone(with.Prep), "drained"), append(slices.Clone(with.Tail), []string{"drained"})
			if rinses {
				with.Prep, with.Tail = append(with.Prep, "and", "rinsed"), append(with.Tail, []string{"rinsed"})
			}
			now := e.resolve(with, metric)
			if now.Status != Counted || now.Grams == l.Grams && now.Food == l.Food && now.drained == nil {
				continue
			}
			now.Number, now.Text, now.Item = l.Number, l.Text, l.Item
			now.Assumed = append(now.Assumed, "drained by the directions")
			*l = now
		}
	}
}
