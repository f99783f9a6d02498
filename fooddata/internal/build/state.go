package main

import (
	"regexp"
	"strings"

	"pottle/fooddata"
)

var (
	cookedWords  = regexp.MustCompile(`(?i)\b(cooked|boiled|roasted|braised|broiled|grilled|baked|fried|stewed|steamed|microwaved|simmered|toasted|scrambled|poached|hard-boiled|omelet|pan-browned|sauteed|oven-heated|rotisserie)\b`)
	notCooked    = regexp.MustCompile(`(?i)(\b(un|not |pre|ready-to-)cooked\b|\buncooked\b|refried|stir-fried|to be cooked|ready-to-cook|(dry|oil|honey)[ -]roasted|from roasted and toasted|beans, baked)`)
	cannedWords  = regexp.MustCompile(`(?i)\bcanned\b`)
	frozenWords  = regexp.MustCompile(`(?i)\bfrozen\b`)
	driedWords   = regexp.MustCompile(`(?i)\b(dried|dehydrated|freeze-dried|powder|powdered|dry|sun-dried)\b`)
	notPrepared  = regexp.MustCompile(`(?i)frozen.*(unprepared|as purchased)`)
	roastedGrain = regexp.MustCompile(`(?i)groats, roasted, dry`)
	rawWords     = regexp.MustCompile(`(?i)\b(raw|fresh|uncooked|unprepared|not cooked)\b`)
	seedsRaw     = regexp.MustCompile(`(?i)(mature seeds|^soybeans|^lentils|^chickpeas|^peas, (green, )?split|^peanuts).*\braw\b`)
	roastedDry   = regexp.MustCompile(`(?i)\bdry.roasted|\bdry table|wine.*\bdry\b`)
)

// stateOf tells the state of a food from its description.
func stateOf(f *food) fooddata.State {
	d := f.description
	switch {
	case notPrepared.MatchString(d):
		return fooddata.Frozen
	case roastedGrain.MatchString(d):
		return fooddata.Dried
	case cookedWords.MatchString(notCooked.ReplaceAllString(d, "")):
		return fooddata.Cooked
	case cannedWords.MatchString(d):
		return fooddata.Canned
	case frozenWords.MatchString(d):
		return fooddata.Frozen
	case seedsRaw.MatchString(d) && f.group == "Legumes and Legume Products":
		return fooddata.Dried
	case driedWords.MatchString(roastedDry.ReplaceAllString(d, "")):
		return fooddata.Dried
	case rawWords.MatchString(d):
		return fooddata.Raw
	case f.group == "Spices and Herbs" && strings.HasPrefix(d, "Spices"):
		return fooddata.Dried
	}
	return fooddata.Unstated
}

var (
	withLiquid  = regexp.MustCompile(`(?i)solids? (and|&) liquids?|solids with bone and liquid|total can contents|packed in tomato juice`)
	cannedSeeds = regexp.MustCompile(`(?i)mature seeds, canned`)
	drained     = regexp.MustCompile(`(?i)drained`)
)

// hasCannedLiquid reports whether the figures of a canned food include the liquid
// it is packed in: the description says so, or it is of canned beans and does
// not say drained.
func hasCannedLiquid(f *food) bool {
	d := f.description
	return cannedWords.MatchString(d) && !drained.MatchString(d) && (withLiquid.MatchString(d) || cannedSeeds.MatchString(d))
}
