package engine

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
)

// orWords and andWords join words.
func orWords(w []string) string { return joinWords(w, " or ") }

func andWords(w []string) string { return joinWords(w, " and ") }

func joinWords(w []string, last string) string {
	if n := len(w); n > 1 {
		return strings.Join(w[:n-1], ", ") + last + w[n-1]
	}
	return strings.Join(w, "")
}

func countOf(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

func sentenceCase(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// figure writes an amount for reading: whole from ten on, one decimal from one
// on, else two.
func figure(v float64) string { return figureWith(v, decimalsFor(v)) }

func decimalsFor(v float64) int {
	switch {
	case v >= 9.95:
		return 0
	case v >= 0.995:
		return 1
	}
	return 2
}

func figureWith(v float64, decimals int) string {
	p := math.Pow(10, float64(decimals))
	return WithCommas(strconv.FormatFloat(math.Round(v*p)/p, 'f', -1, 64))
}

// figureBeside writes an amount with as many decimals as it takes to see how
// far it is from the limit.
func figureBeside(v, limit float64) string {
	v = withoutNoise(v)
	d := decimalsFor(v)
	for apart := math.Abs(v - limit); d < 6 && apart > 0 && math.Pow(10, float64(-d)) > apart/2; d++ {
	}
	return figureWith(v, d)
}

func quantityBeside(n fooddata.Nutrient, v, limit float64) string {
	return figureBeside(v, limit) + " " + unitName(n)
}

// unitName is a unit with the name of its nutrient: "mg sodium", "kcal".
func unitName(n fooddata.Nutrient) string {
	if n == fooddata.Energy {
		return "kcal"
	}
	return n.Unit() + " " + claimName(n)
}

// weighed writes grams in whole numbers.
func weighed(g float64) string { return figureWith(g, 0) }

func uniqueWords(w []string) []string {
	var out []string
	for _, s := range w {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

func inQuotes(s string) string { return `"` + s + `"` }
