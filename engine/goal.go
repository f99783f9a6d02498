package engine

import (
	"strings"

	"pottle/fooddata"
)

// Goal is what a recipe is to have less or more of.
type Goal uint8

// The goals. All stands for every one of them.
const (
	LessSodium Goal = iota
	LessAddedSugar
	LessSaturatedFat
	FewerCalories
	MoreFibre
	All

	numGoals = int(All)
)

type goalRow struct {
	name     string
	nutrient fooddata.Nutrient
	least    float64
	daily    float64
}

// goalTable describes each goal: the name that the table of rules uses, its
// nutrient, the least change of a serving that is worth showing, in the unit of
// the nutrient, and a Daily Value to weigh goals against each other (of energy
// 2,000 kcal, 21 CFR 101.9(c)(9)).
var goalTable = [numGoals]goalRow{
	LessSodium:       {"sodium", fooddata.Sodium, 25, 2300},
	LessAddedSugar:   {"added sugar", fooddata.AddedSugars, 1, 50},
	LessSaturatedFat: {"saturated fat", fooddata.SaturatedFat, 0.5, 20},
	FewerCalories:    {"calories", fooddata.Energy, 10, 2000},
	MoreFibre:        {"fibre", fooddata.Fibre, 0.5, 28},
}

// leastShare is the least share of the serving that a change must move.
const leastShare = 0.05

// String returns the goal in lower case: "less sodium".
func (g Goal) String() string {
	switch g {
	case FewerCalories:
		return "fewer calories"
	case MoreFibre:
		return "more fibre"
	case All:
		return "all goals"
	}
	return "less " + goalTable[g].name
}

// Nutrient returns the nutrient that the goal is about. It panics for All.
func (g Goal) Nutrient() fooddata.Nutrient { return goalTable[g].nutrient }

// gain is how far b is nearer to the goal than a, in the goal's unit.
func (g Goal) gain(a, b float64) float64 {
	if g == MoreFibre {
		return b - a
	}
	return a - b
}

// worth reports whether the way from a to b is visible and in the right
// direction.
func (g Goal) worth(a, b float64) bool {
	gain := g.gain(a, b)
	return gain >= goalTable[g].least && gain >= leastShare*a
}

// Words of a request that tell its goal, which way, and what may stand beside
// them. Any other word makes it another request: "low sodium chicken broth",
// "can I call it low sodium".
var (
	lessWords = wordSet("cut less lower lowering reduce reducing reduced fewer low decrease drop bring trim limit down minimise minimize back")
	moreWords = wordSet("more raise increase boost higher high up add increasing extra")
	allWords  = wordSet("suggest suggestion improve improvement healthier lighter better idea tip")
	goalWords = map[string]Goal{
		"sodium": LessSodium, "salt": LessSodium, "sugar": LessAddedSugar, "fat": LessSaturatedFat, "satfat": LessSaturatedFat,
		"calorie": FewerCalories, "kcal": FewerCalories, "energy": FewerCalories, "fibre": MoreFibre, "fiber": MoreFibre, "roughage": MoreFibre,
	}
	fillWords = normalSet("a an all amount any can change content could dish do for give help how i in it its let lets like make me my on please recipe saturated sat show some something this to us want way we what with would you added")
)

// normalSet is wordSet of the words in the form that names have.
func normalSet(words string) map[string]bool {
	return wordSet(strings.Join(fooddata.Normalise(words), " "))
}

// GoalNamed returns the goal that a request names: "cut sodium", "less added
// sugar", "lower the saturated fat", "fewer calories", "more fibre", "suggest".
// It returns false if it names none or several, wants less fibre or more of the
// rest, or speaks of something else besides. Of all fat there is no goal.
func GoalNamed(words string) (Goal, bool) {
	said := fooddata.Normalise(words)
	less, more, every := false, false, false
	goal := All
	for i, w := range said {
		g, isGoal := goalWords[w]
		switch {
		case w == "fat" && (i == 0 || said[i-1] != "saturated" && said[i-1] != "sat"):
			return All, false
		case isGoal && goal != All && g != goal:
			return All, false
		case isGoal:
			goal = g
		case lessWords[w]:
			less = true
		case moreWords[w]:
			more = true
		case allWords[w]:
			every = true
		case !fillWords[w]:
			return All, false
		}
	}
	switch {
	case less && more:
		return All, false
	case goal == All:
		return All, every && !more
	case less || more:
		return goal, more == (goal == MoreFibre)
	}
	return goal, every
}
