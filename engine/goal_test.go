package engine_test

import (
	"testing"

	"pottle/engine"
)

func TestGoalNamed(t *testing.T) {
	for _, c := range []struct {
		words string
		goal  engine.Goal
		ok    bool
	}{
		{"cut sodium", engine.LessSodium, true},
		{"Cut the salt!", engine.LessSodium, true},
		{"lower in sodium please", engine.LessSodium, true},
		{"less added sugar", engine.LessAddedSugar, true},
		{"reduce the sugars", engine.LessAddedSugar, true},
		{"lower the saturated fat", engine.LessSaturatedFat, true},
		{"less sat fat", engine.LessSaturatedFat, true},
		{"fewer calories", engine.FewerCalories, true},
		{"cut kcal", engine.FewerCalories, true},
		{"more fibre", engine.MoreFibre, true},
		{"higher fiber", engine.MoreFibre, true},
		{"raise the fibre", engine.MoreFibre, true},
		{"suggest", engine.All, true},
		{"any suggestions?", engine.All, true},
		{"make it healthier", engine.All, true},
		{"suggest less sodium", engine.LessSodium, true},
		{"suggestions for fibre", engine.MoreFibre, true},
		{"how can I cut down on the salt in this recipe?", engine.LessSodium, true},

		{"less fibre", engine.All, false}, // a low-fibre diet is no goal here
		{"low fibre", engine.All, false},
		{"more sodium", engine.All, false},
		{"more sugar", engine.All, false},
		{"less fat", engine.All, false},
		{"sodium", engine.All, false},
		{"half the sugar", engine.All, false},
		{"less sodium and more fibre", engine.All, false},
		{"cut carbs", engine.All, false},
		{"less protein", engine.All, false},
		{"low sodium chicken broth", engine.All, false},
		{"can I call it low sodium", engine.All, false},
		{"sodium under 400 by salt", engine.All, false},
		{"reduced sodium than the original", engine.All, false},
		{"", engine.All, false},
	} {
		goal, ok := engine.GoalNamed(c.words)
		if ok != c.ok || ok && goal != c.goal {
			t.Errorf("%q: %s, %v; want %s, %v", c.words, goal, ok, c.goal, c.ok)
		}
	}
}
