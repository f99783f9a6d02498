package engine_test

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// label is what a dietitian would make of one line. The sets were written by
// reading, without running the program; see the heads of the files.
type label struct {
	file   string
	line   string
	status string
	foods  []string // acceptable USDA numbers
	grams  float64  // 0 where careful people could differ by more than 10 %
}

func readLabels(t *testing.T, files ...string) []label {
	t.Helper()
	var labels []label
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		scanner := bufio.NewScanner(f)
		for scanner.Scan() {
			if strings.HasPrefix(scanner.Text(), "#") || strings.TrimSpace(scanner.Text()) == "" {
				continue
			}
			cols := strings.Split(scanner.Text(), "\t")
			if len(cols) != 5 {
				t.Fatalf("%s: %d columns in %q", file, len(cols), scanner.Text())
			}
			l := label{file: file, line: cols[0], status: cols[1], foods: strings.Split(cols[2], ",")}
			if cols[3] != "-" {
				if l.grams, err = strconv.ParseFloat(cols[3], 64); err != nil {
					t.Fatalf("%s: grams of %q: %v", file, cols[0], err)
				}
			}
			labels = append(labels, l)
		}
		if err := scanner.Err(); err != nil {
			t.Fatal(err)
		}
	}
	return labels
}

// TestLabelled holds the matching against the labelled lines. With -v it
// prints every line that differs.
func TestLabelled(t *testing.T) {
	labels := readLabels(t, "testdata/labelled_us.tsv", "testdata/labelled_uk.tsv", "testdata/labelled_heldout.tsv", "testdata/labelled_review.tsv")
	if len(labels) < 400 {
		t.Fatalf("only %d labelled lines; there must be at least 400", len(labels))
	}
	e := newEngine(t)
	var foods, foodsRight, grams, gramsRight, status, statusRight, confidentlyWrong int
	for _, l := range labels {
		// A line is read as it stands in a recipe, after a title.
		recipe, err := grammar.ParseRecipe("Test dish\nServes 4\n\n1 cup water\n" + l.line)
		if err != nil {
			t.Fatalf("%q: %v", l.line, err)
		}
		a := e.Analyse(recipe)
		got := a.Lines[min(3, len(a.Lines)-1)]
		status++
		if gotStatus := statusName(&got); gotStatus == l.status {
			statusRight++
		} else {
			t.Logf("status  %q: %s, want %s (%s %s; %s)", l.line, gotStatus, l.status, number(&got), got.Food, got.Why)
		}
		if l.status != "counted" {
			if got.Status == engine.Counted && l.status == "ask" {
				confidentlyWrong++
				t.Errorf("counted %q as %s, %.0f g (confidence %.2f): it must be asked about", l.line, got.Food.Name(), got.Grams.Low, got.Confidence)
			}
			continue
		}
		foods++
		switch {
		case contains(l.foods, number(&got)):
			foodsRight++
		case got.Status == engine.Counted && got.Confidence >= 0.8:
			confidentlyWrong++
			t.Errorf("food    %q: %s %s with confidence %.2f, want %s", l.line, number(&got), got.Food.Name(), got.Confidence, l.foods)
			continue
		default:
			t.Logf("food    %q: %s %s (%.2f), want %s", l.line, number(&got), got.Food, got.Confidence, l.foods)
			continue
		}
		if l.grams == 0 {
			continue
		}
		grams++
		if math.Abs(got.Grams.Low-l.grams) <= 0.10*l.grams {
			gramsRight++
		} else {
			t.Logf("grams   %q: %.1f g, want %.1f (%s; %v)", l.line, got.Grams.Low, l.grams, got.Why, got.Assumed)
		}
	}
	percent := func(part, of int) float64 { return 100 * float64(part) / float64(of) }
	t.Logf("%d lines: right status %.1f %%, right food %.1f %% of %d, grams within 10 %% %.1f %% of %d, wrong with confidence %d",
		len(labels), percent(statusRight, status), percent(foodsRight, foods), foods, percent(gramsRight, grams), grams, confidentlyWrong)
	if p := percent(foodsRight, foods); p < 97 {
		t.Errorf("right food in %.1f %% of the lines, less than 97 %%", p)
	}
	if p := percent(gramsRight, grams); p < 95 {
		t.Errorf("grams within 10 %% in %.1f %% of the lines, less than 95 %%", p)
	}
}

func statusName(l *engine.Line) string {
	switch l.Kind {
	case grammar.Heading:
		return "heading"
	case grammar.Note:
		return "note"
	}
	return l.Status.String()
}

func number(l *engine.Line) string {
	if l.Food.IsZero() {
		return "-"
	}
	return l.Food.Number()
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
