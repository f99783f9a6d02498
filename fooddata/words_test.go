package fooddata

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

func TestNormalise(t *testing.T) {
	for _, tc := range []struct{ in, want string }{
		{"Whole Milk", "whole milk"},
		{"crème fraîche", "creme fraiche"},
		{"JALAPEÑO peppers", "jalapeno pepper"},
		{"jalapen\u0303o", "jalapeno"}, // the accent on its own
		{"Weißwurst", "weisswurst"},
		{"hors d'œuvres", "hor doeuvre"},
		{"smørrebrød", "smorrebrod"},
		{"confectioners' sugar", "confectioner sugar"},
		{"baker’s yeast", "baker yeast"},
		{"half-and-half", "half half"},
		{"half & half", "half half"},
		{"macaroni and cheese", "macaroni cheese"},
		{"cream of the crop", "cream crop"},
		{"2% milk", "2% milk"},
		{"2 % milk", "2% milk"},
		{"milk, 2%", "milk 2%"},
		{"1.5% fat", "1.5% fat"},
		{"% daily", "daily"},
		{"all-purpose flour", "all purpose flour"},
		{"salt/pepper", "salt pepper"},
		{"80/20 beef", "80 20 beef"},
		{"no. 10", "no 10"},
		{"  tabs\tand\nlines ", "tab line"},
		{"tomatoes, cherry (halved)", "tomato cherry halved"},
		{"日本 酒", "日本 酒"},
		{"", ""},
		{"&", ""},
		{"the", ""},
		{"!?()", ""},
		{"\xff\xfe", ""},
		{"a\x00b", "a b"},
	} {
		if got := strings.Join(Normalise(tc.in), " "); got != tc.want {
			t.Errorf("Normalise(%q) = %q, want %q", tc.in, got, tc.want)
		}
	}
}

func TestSingular(t *testing.T) {
	for in, want := range map[string]string{
		"tomatoes": "tomato", "potatoes": "potato", "mangoes": "mango", "mangos": "mango",
		"berries": "berry", "cherries": "cherry", "anchovies": "anchovy", "patties": "patty", "cookies": "cookie",
		"brownies": "brownie", "pies": "pie", "leaves": "leaf", "halves": "half", "loaves": "loaf", "knives": "knife",
		"calves": "calf", "olives": "olive", "chives": "chive", "cloves": "clove", "endives": "endive",
		"radishes": "radish", "peaches": "peach", "boxes": "box", "squashes": "squash", "sandwiches": "sandwich",
		"quiches": "quiche", "cheeses": "cheese", "sauces": "sauce", "glazes": "glaze", "glasses": "glass",
		"carrots": "carrot", "onions": "onion", "eggs": "egg", "oats": "oat", "peas": "pea", "figs": "fig",
		"chilies": "chili", "chillies": "chilli", "chiles": "chile", "kiwis": "kiwi", "zucchinis": "zucchini",
		"cacti": "cactus", "geese": "goose", "roes": "roe", "shoes": "shoe", "octopuses": "octopus",
		// No plurals.
		"molasses": "molasses", "hummus": "hummus", "couscous": "couscous", "asparagus": "asparagus",
		"swiss": "swiss", "watercress": "watercress", "citrus": "citrus", "octopus": "octopus", "bass": "bass",
		"greens": "greens", "bitters": "bitters", "gas": "gas", "jus": "jus", "rice": "rice", "broccoli": "broccoli",
		"": "", "s": "s", "2%": "2%",
	} {
		if got := Singular(in); got != want {
			t.Errorf("Singular(%q) = %q, want %q", in, got, want)
		}
		if got := Singular(want); got != want {
			t.Errorf("Singular(%q) = %q, want it unchanged", want, got)
		}
	}
}

// checkNormal checks what every text must give.
func checkNormal(t *testing.T, s string) {
	words := Normalise(s)
	for _, w := range words {
		if w == "" || strings.ContainsAny(w, " \t\n'’") || w == "and" || w == "of" || w == "the" {
			t.Errorf("Normalise(%q) has the word %q", s, w)
		}
		if !utf8.ValidString(w) {
			t.Errorf("Normalise(%q) has the word %q, which is not UTF-8", s, w)
		}
		if strings.ToLower(w) != w {
			t.Errorf("Normalise(%q) has the word %q, not in lower case", s, w)
		}
	}
	if again := Normalise(strings.ToUpper(s)); utf8.ValidString(s) && isASCII(s) && !slices.Equal(again, words) {
		t.Errorf("Normalise(%q) = %q, in capitals %q", s, words, again)
	}
}

func isASCII(s string) bool {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

func FuzzNormalise(f *testing.F) {
	for _, s := range []string{"", "2 % milk", "crème fraîche", "half-and-half", "\xff", "İ", "ﬁg", "ǅ", "1.5.6%", "'%'", "ẞ", "half\u0301", "Ands"} {
		f.Add(s)
	}
	for food := range openTable(f).All() {
		if food.index%97 == 0 {
			f.Add(food.Description())
		}
	}
	f.Fuzz(checkNormal)
}
