package grammar

import (
	"regexp"
	"strconv"
	"strings"
)

// FoodText is a food as somebody tells it from its label: "oat bar, 1 bar (40 g):
// 150 kcal, fat 5 g, sodium 95 mg".
type FoodText struct {
	Name    string
	Serving string  // what a serving is called: "1 bar"; empty if not told
	Grams   float64 // of a serving; 0 if not told
	Figures []FigureText
}

// FigureText is one declared figure: "fat 5 g".
type FigureText struct {
	Nutrient string // the words; empty for energy told as "150 kcal"
	Amount   float64
	Unit     string // as said, in small letters; empty if none
}

var (
	servingGrams = regexp.MustCompile(`(?i)\(?\s*(\d+(?:[.,]\d+)?)\s*(?:g|gr|grams?)\b\s*\)?`)
	figureAmount = regexp.MustCompile(`(?i)(\d+(?:[.,]\d+)?)\s*(kcal|cal(?:orie)?s?|kj|g|grams?|mg|mcg|µg|ug)?(?:\s|$)`)
)

// ParseFood reads a food told by its label. The name stands before the first
// comma or colon, the serving before the colon, the figures after it. It returns
// a *Fault that names what could not be read.
func ParseFood(text string) (FoodText, error) {
	head, figures, told := strings.Cut(text, ":")
	name, serving, _ := strings.Cut(head, ",")
	f := FoodText{Name: strings.TrimSpace(name)}
	if f.Name == "" {
		return f, &Fault{Column: 1, Reason: "a food needs a name", Hint: "write it like \"oat bar, 40 g: 150 kcal, fat 5 g\""}
	}
	if m := servingGrams.FindStringSubmatch(serving); m != nil {
		f.Grams = decimal(m[1])
		serving = strings.Replace(serving, m[0], "", 1)
	}
	f.Serving = strings.Trim(strings.TrimSpace(serving), ", ")
	if !told {
		return f, nil
	}
	col := len(head) + 1
	for _, part := range strings.FieldsFunc(decimalPoints(figures), func(r rune) bool { return r == ',' || r == ';' }) {
		figure, ok := parseFigure(part)
		if !ok {
			return f, &Fault{Column: col + 1, Part: strings.TrimSpace(part), Reason: "is no figure", Hint: "write each like \"fat 5 g\""}
		}
		f.Figures = append(f.Figures, figure)
		col += len(part) + 1
	}
	return f, nil
}

// decimalPoints makes "0,5 g" "0.5 g"; a comma before a space divides figures.
func decimalPoints(s string) string { return decimalComma.ReplaceAllString(s, "$1.$2") }

var decimalComma = regexp.MustCompile(`(\d),(\d)`)

func parseFigure(s string) (FigureText, bool) {
	s = strings.Trim(strings.TrimSpace(s), ".")
	at := figureAmount.FindStringSubmatchIndex(s)
	if at == nil || strings.ContainsAny(s, "<>≤≥~-−") {
		return FigureText{}, false
	}
	figure := FigureText{Amount: decimal(s[at[2]:at[3]])}
	if at[4] >= 0 {
		figure.Unit = strings.ToLower(s[at[4]:at[5]])
	}
	words := strings.Fields(s[:at[0]] + " " + s[at[1]:])
	if len(words) > 0 && (strings.EqualFold(words[0], "of") || strings.EqualFold(words[0], "and")) {
		words = words[1:]
	}
	figure.Nutrient = strings.Trim(strings.Join(words, " "), ":= ")
	return figure, figure.Nutrient != "" || figure.Unit != ""
}

func decimal(s string) float64 {
	v, _ := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	return v
}
