package engine_test

import (
	"fmt"
	"sync"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

func forTeam(t testing.TB, e *engine.Engine, foods []fooddata.CustomFood, words map[string]string) *engine.Engine {
	t.Helper()
	own, err := e.ForTeam(foods, words)
	if err != nil {
		t.Fatal(err)
	}
	return own
}

// aTeam are foods and words, made anew with each call.
func aTeam() ([]fooddata.CustomFood, map[string]string) {
	return []fooddata.CustomFood{
		{Name: "oat bar", Others: []string{"house bar"}, ServingGrams: 40, ServingName: "bar", PerServing: figures{fooddata.Energy: 150, fooddata.Sodium: 95}},
		{Name: "ward soup", ServingGrams: 240, PerServing: figures{fooddata.Sodium: 300}},
	}, map[string]string{"milk": "skim milk", "rice": "brown rice"}
}

// TestForTeam: the same foods and words have one engine, and the least change
// has another.
func TestForTeam(t *testing.T) {
	base := newEngine(t)
	foods, words := aTeam()
	one := forTeam(t, base, foods, words)
	words["milk"], foods[0].PerServing[fooddata.Sodium] = "2% milk", 1 // too late
	foods, words = aTeam()
	if forTeam(t, base, foods, words) != one || forTeam(t, one, foods, words) != one {
		t.Error("the same foods and words have another engine")
	}
	if l := resolved(t, one, "1 cup milk"); l.Food.Name() != "skim milk" {
		t.Errorf("milk is %s", l.Food)
	}
	if forTeam(t, base, nil, nil) == one {
		t.Error("a team of nothing has the engine of another")
	}
	for name, change := range map[string]func([]fooddata.CustomFood, map[string]string){
		"food":          func(f []fooddata.CustomFood, _ map[string]string) { f[0].Name = "oats bar" },
		"other name":    func(f []fooddata.CustomFood, _ map[string]string) { f[0].Others[0] = "our bar" },
		"no other name": func(f []fooddata.CustomFood, _ map[string]string) { f[0].Others = nil },
		"serving":       func(f []fooddata.CustomFood, _ map[string]string) { f[0].ServingGrams = 40.001 },
		"serving name":  func(f []fooddata.CustomFood, _ map[string]string) { f[0].ServingName = "piece" },
		"figure":        func(f []fooddata.CustomFood, _ map[string]string) { f[0].PerServing[fooddata.Sodium] = 95.5 },
		"unknown":       func(f []fooddata.CustomFood, _ map[string]string) { delete(f[0].PerServing, fooddata.Sodium) },
		"zero":          func(f []fooddata.CustomFood, _ map[string]string) { f[1].PerServing[fooddata.Energy] = 0 },
		"meaning":       func(_ []fooddata.CustomFood, w map[string]string) { w["milk"] = "1% milk" },
		"word":          func(_ []fooddata.CustomFood, w map[string]string) { delete(w, "milk") },
		"another":       func(_ []fooddata.CustomFood, w map[string]string) { w["yogurt"] = "plain yogurt" },
		"words as one":  func(_ []fooddata.CustomFood, w map[string]string) { clear(w); w["milk"] = "skim milk rice:brown rice" },
	} {
		foods, words := aTeam()
		change(foods, words)
		if forTeam(t, base, foods, words) == one {
			t.Errorf("%s: after a change the engine is that of before", name)
		}
	}
}

// TestForTeamForgets: only so many are kept, those asked for last.
func TestForTeamForgets(t *testing.T) {
	table, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	base := engine.New(table, engine.Options{Teams: 2})
	made := func(milk string) *engine.Engine { return forTeam(t, base, nil, map[string]string{"milk": milk}) }
	skim, one := made("skim milk"), made("1% milk")
	if made("skim milk") != skim {
		t.Error("the first of two is not kept")
	}
	made("2% milk")
	if made("skim milk") != skim {
		t.Error("what was asked for last is not kept")
	}
	again := made("1% milk")
	if again == one {
		t.Error("three are kept of two")
	}
	if l := resolved(t, again, "1 cup milk"); l.Food.Name() != "1% milk" {
		t.Errorf("made again, milk is %s", l.Food)
	}
}

func TestForTeamFault(t *testing.T) {
	base := newEngine(t)
	for range 2 { // a fault is not kept either
		if own, err := base.ForTeam([]fooddata.CustomFood{{Name: "bar"}}, nil); err == nil || own != nil {
			t.Errorf("a food without a serving: %v, %v", own, err)
		}
	}
}

// TestForTeamAtOnce: teams that come and go at the same time each get their own
// answers.
func TestForTeamAtOnce(t *testing.T) {
	table, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	base := engine.New(table, engine.Options{Teams: 2})
	milks := []string{"skim milk", "1% milk", "2% milk"}
	var wait sync.WaitGroup
	for i := range 12 {
		wait.Go(func() {
			for j := range 20 {
				n := (i + j) % len(milks)
				own, err := base.ForTeam([]fooddata.CustomFood{{Name: fmt.Sprint("ward bar ", n), ServingGrams: 40}}, map[string]string{"milk": milks[n]})
				if err != nil {
					t.Error(err)
					return
				}
				if l := resolved(t, own, "1 cup milk"); l.Food.Name() != milks[n] {
					t.Errorf("milk is %s, want %s", l.Food, milks[n])
				}
				if l := resolved(t, own, fmt.Sprint("1 ward bar ", n)); !l.Food.Team() {
					t.Errorf("the team's own bar is %s", l.Food)
				}
			}
		})
	}
	wait.Wait()
}
