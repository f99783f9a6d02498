package engine

import (
	"slices"

	"pottle/fooddata"
)

// kidneyBeans tells of the lectin of kidney beans that come dried: white ones,
// cannellini, have it too. Canned and cooked ones do not call for it.
func (d *dishView) kidneyBeans() (Caution, bool) {
	var beans []dishFood
	for _, in := range d.foods {
		if in.says("kidney bean") == doesContain && d.comesDried(in) {
			beans = append(beans, in)
		}
	}
	if len(beans) == 0 {
		return Caution{}, false
	}
	text := cautionNames(beans) + ": raw or half cooked they hold a lectin (phytohaemagglutinin) that makes ill within hours; soak 5 hours or more, pour the water away, boil in fresh water for 30 minutes, then cook until soft"
	if d.told("slow cooker") || cautionRules("slow cooker").in(d.title) == doesContain {
		text += "; this slow cooker does not get hot enough, and warming makes them worse than raw: boil them for the 30 minutes before they go in"
	} else {
		text += "; never from raw in a slow cooker or on low"
	}
	return Caution{"kidney beans", text, fromBadBugBook, cautionLines(beans)}, true
}

// comesDried reports whether an ingredient is a pulse that is bought dry.
func (d *dishView) comesDried(in dishFood) bool {
	for _, w := range []string{"canned", "tinned", "cooked", "precooked", "leftover"} {
		if slices.Contains(in.words, w) {
			return false
		}
	}
	for _, w := range []string{"dried", "dry", "soaked", "raw", "uncooked"} {
		if slices.Contains(in.words, w) {
			return true
		}
	}
	if in.food.IsZero() {
		return d.told("soak")
	}
	switch in.food.State() {
	case fooddata.Canned, fooddata.Cooked:
		return false
	}
	return true
}
