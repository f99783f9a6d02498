package bot

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"pottle/engine"
	"pottle/fooddata"
)

// blockWidth is the most columns of the block of figures: what a phone shows
// without wrapping. Values end in column valueEnd, shares of the Daily Value
// in the last.
const (
	blockWidth = 34
	valueEnd   = 28
)

// row is one line of the block of figures.
type row struct {
	nutrient fooddata.Nutrient
	label    string
}

// shown are the figures of a reply, in order. Parts stand indented below
// their whole.
var shown = []row{
	{fooddata.Energy, "Energy"},
	{fooddata.Carbohydrate, "Carbohydrate"},
	{fooddata.Fibre, "  Fibre"},
	{fooddata.Sugars, "  Sugars"},
	{fooddata.AddedSugars, "    added"},
	{fooddata.Protein, "Protein"},
	{fooddata.Fat, "Fat"},
	{fooddata.SaturatedFat, "  Saturated"},
	{fooddata.Cholesterol, "Cholesterol"},
	{fooddata.Sodium, "Sodium"},
	{fooddata.Potassium, "Potassium"},
	{fooddata.Calcium, "Calcium"},
	{fooddata.Iron, "Iron"},
	{fooddata.VitaminD, "Vitamin D"},
}

// block writes the figures of one serving, and more beside the usual ones, at most
// blockWidth columns wide. Each is "at least" so much where a line is asked about.
func block(a *engine.Analysis, more ...fooddata.Nutrient) string {
	var b strings.Builder
	b.WriteString(columns("", "", "% DV"))
	open := unread(a)
	rows := slices.Clone(shown)
	for _, n := range more {
		rows = append(rows, row{n, sentence(n.Name())})
	}
	for _, r := range rows {
		t := a.Per(r.nutrient)
		label := r.label
		if a.Unknown(r.nutrient) {
			b.WriteString(columns(label, "no figure", ""))
			continue
		}
		if !a.Complete(r.nutrient) || open {
			label += ", at least"
		}
		b.WriteString(columns(label, value(t.Low, r.nutrient), percentDV(t.Low, r.nutrient)))
		if r.nutrient == fooddata.Carbohydrate {
			b.WriteString(columns("  Choices of 15 g", choices(a.Choices()), ""))
		}
	}
	return strings.TrimRight(b.String(), "\n")
}

// columns writes one line of the block.
func columns(label, value, share string) string {
	if width(label)+1+width(value) > valueEnd { // huge figures of a whole recipe
		label, value = strings.Replace(label, ", at", " at", 1), strings.ReplaceAll(value, ",", "")
	}
	line := pad(label, max(valueEnd-width(value), width(label)+1)) + value
	if share != "" {
		line = pad(line, max(blockWidth-width(share), width(line)+1)) + share
	}
	return strings.TrimRight(line, " ") + "\n"
}

func width(s string) int { return utf8.RuneCountInString(s) }

func pad(s string, to int) string {
	if n := to - width(s); n > 0 {
		return s + strings.Repeat(" ", n)
	}
	return s
}

// value writes an amount of a nutrient for reading: whole kcal and mg, grams
// with one decimal below ten. It is for display only, not a label's rounding.
func value(v float64, n fooddata.Nutrient) string {
	return number(v, n) + " " + n.Unit()
}

// named writes an amount with the name of its nutrient: "45 g total
// carbohydrate", but "300 kcal".
func named(v float64, n fooddata.Nutrient) string {
	if n == fooddata.Energy {
		return value(v, n)
	}
	return value(v, n) + " " + n.Name()
}

func number(v float64, n fooddata.Nutrient) string {
	decimals := 0
	switch {
	case n.Unit() == "g" && v < 9.95, n.Unit() == "µg" && v < 9.95:
		decimals = 1
	case n.Unit() == "mg" && n.Decimals() > 0 && v < 9.95:
		decimals = 1
	}
	return engine.WithCommas(fmt.Sprintf("%.*f", decimals, v))
}

// percentDV is the share of the Daily Value, empty where there is none. FDA
// gives protein one, but a label's share needs protein quality, so none is
// given here.
func percentDV(v float64, n fooddata.Nutrient) string {
	dv, ok := fooddata.DailyValue(n)
	if !ok || n == fooddata.Protein {
		return ""
	}
	p := math.Round(v / dv * 100)
	switch {
	case p == 0 && v > 0:
		return "<1%"
	case p > 999:
		return ">999%"
	}
	return fmt.Sprintf("%.0f%%", p)
}

// choices writes carbohydrate choices in halves.
func choices(c float64) string {
	whole := math.Floor(c)
	switch {
	case c == whole:
		return fmt.Sprintf("%.0f", c)
	case whole == 0:
		return "1/2"
	}
	return fmt.Sprintf("%.0f 1/2", whole)
}

// choiceWords writes "1 choice", "2 1/2 choices".
func choiceWords(c float64) string {
	if c == 1 || c == 0.5 {
		return choices(c) + " choice"
	}
	return choices(c) + " choices"
}

// grams writes a weight.
func grams(r engine.Range) string {
	if r.High > r.Low*1.0001 {
		return gramsOf(r.Low) + " to " + gramsOf(r.High) + " g"
	}
	return gramsOf(r.Low) + " g"
}

func gramsOf(g float64) string {
	switch {
	case g >= 9.95:
		return engine.WithCommas(fmt.Sprintf("%.0f", g))
	case g >= 0.95:
		return fmt.Sprintf("%.1f", g)
	case g == 0:
		return "0"
	}
	return fmt.Sprintf("%.2f", g)
}
