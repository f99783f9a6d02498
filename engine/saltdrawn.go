package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/grammar"
)

// forWater are words of a line of salt that is for the water something is cooked in.
var forWater = regexp.MustCompile(`\bfor (?:the |your |boiling |salting |cooking )*(?:pasta |noodle |potato |blanching |salted )?(?:cooking |boiling )?water\b|\bfor (?:boiling|salting|cooking) (?:the )?(?:pasta|noodles|potatoes)\b`)

// saltToldForWater returns the lines of salt that say themselves that they are for
// the water: "2 tsp salt (for pasta water)". With loose, other words of water count
// too, as where the directions pour some off.
func (a *Analysis) saltToldForWater(loose bool) []int {
	var told []int
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Status != Counted || !plainSalt(l) {
			continue
		}
		if text := strings.ToLower(l.Text); forWater.MatchString(text) || loose && strings.Contains(text, "water") && (strings.Contains(text, " for ") || strings.Contains(text, "boiling")) {
			told = append(told, i)
		}
	}
	return told
}

// saltDrawn reads directions by which salt draws water from a vegetable and is
// rinsed, squeezed or drained off: "sprinkle the aubergine with salt, leave for 30
// minutes, rinse". How much of it stays nobody can tell.
func (a *Analysis) saltDrawn(steps []cookStep, k *pot) cookingWater {
	var w cookingWater
	var salt []int
	meat := false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind != grammar.Ingredient || l.Status != Counted {
			continue
		}
		if plainSalt(l) {
			salt = append(salt, i)
		}
		meat = meat || marinated(l)
	}
	if len(salt) == 0 {
		return w
	}
	for i := range steps {
		said := saidIn(&steps[i])
		if !saidAny(said, "salt|salted|salting") || saltedWater(said) || saidAny(said, "brine") {
			continue
		}
		vegetable := !meat
		salted := make(map[int]bool)
		for j := max(0, i-1); j <= min(i+1, len(steps)-1); j++ {
			for _, at := range k.named(&steps[j]) {
				salted[at] = true
				vegetable = vegetable || a.Lines[at].Food.Group() == "Vegetables and Vegetable Products"
			}
		}
		if !vegetable {
			continue
		}
		left := false
		for j := i; j < len(steps) && j <= i+7; j++ {
			said := saidIn(&steps[j])
			if j > i && steps[j].method != "" {
				break
			}
			left = left || saidAny(said, "leave|stand|sit|rest|set aside|let|minutes|minute|mins|min|hour|hours|overnight|weep|sweat|wilt|wilted|degorge|draw")
			if left && saidAny(said, "rinse|rinsed|rinsing|squeeze|squeezed|squeezing|wring|drain|drained|pat dry|pat them dry|pat it dry|blot|wash off|wipe off|press out") {
				named := slices.DeleteFunc(slices.Clone(k.named(&steps[j])), func(at int) bool { return plainSalt(&a.Lines[at]) || isWater(&a.Lines[at]) })
				if len(named) > 0 && !slices.ContainsFunc(named, func(at int) bool { return salted[at] }) { // "drain the beans"
					continue
				}
				w.maybe, w.said, w.drawn = salt, strings.TrimSpace(steps[j].said), true
				w.share, w.source = marinadeKept, "an estimate, common practice, no source"
				if len(salt) > 1 { // the rest seasons the dish
					w.maybe = []int{slices.MaxFunc(salt, func(x, y int) int { return int(100 * (a.Lines[x].Grams.Low - a.Lines[y].Grams.Low)) })}
				}
				return w
			}
		}
	}
	return w
}
