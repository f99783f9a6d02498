package grammar

import (
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// The grammar of pans has a parser of its own, tried before the other changes:
// that words name a pan is seen from the words, which no look-ahead tells.

// pansNode is "8x8 to 9x13", "from a 9-inch round to two loaf pans", "bake it
// in a 9x13 instead of an 8x8".
type pansNode struct {
	In   *panNode `parser:"  ( ( 'bake' | 'make' | 'cook' | 'put' | 'baked' )? ( 'it' | 'this' | 'the' 'recipe' )? 'in' ( Article | 'the' )? @@"`
	Not  *panNode `parser:"    'instead' 'of' ( 'in' )? ( Article | 'the' )? @@ )"`
	From *panNode `parser:"| ( ( 'scale' | 'convert' | 'change' | 'resize' | 'go' | 'it' | 'this' | 'the' ( 'recipe' )? | 'from' | Article )* @@"`
	To   *panNode `parser:"    ( 'to' | 'into' ) ( Article | 'the' )? @@ )"`
}

// panNode is the words for a pan, or for several of a kind.
type panNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'to' | 'into' | 'instead' ) @( Int | Decimal | Fraction | Vulgar | Number | Volume | Weight | Length | Count | Container | Size | Hedge | Times | Dash | Comma | Word | Mark ) )+"`
}

var panParser = participle.MustBuild[pansNode](
	participle.Lexer(lineLexer{}),
	participle.CaseInsensitive("Word"),
	participle.UseLookahead(60),
)

// parsePans reads a recipe's way from one pan to another; ok is false if the
// text is none.
func parsePans(s string) (r Request, ok bool) {
	node, err := panParser.ParseString("", s)
	if err != nil {
		return Request{}, false
	}
	c := change{text: s}
	from, to := node.From, node.To
	if node.Not != nil {
		from, to = node.Not, node.In
	}
	r = Request{Kind: ScalePan, Amounts: []string{c.span(from.Pos, from.EndPos), c.span(to.Pos, to.EndPos)}}
	return r, isPan(r.Amounts[0]) && isPan(r.Amounts[1])
}

// panKinds are the words that make a text one about a pan; panWords may stand
// beside them.
var (
	panKinds = set("pan pans tin tins dish dishes mold molds mould moulds plate plates casserole round rounds circle circles square squares rectangle",
		"loaf loaves muffin muffins cupcake cupcakes sheet sheets springform springforms tube tubes pie pies ring rings bundt bundts ramekin ramekins",
		"jelly-roll traybake kugelhopf gugelhupf savarin tart quiche flan")
	panWords = set("inch inches in cm centimetre centimetres centimeter centimeters mm x by cup cups lb lbs pound pounds quart quarts qt litre litres liter liters",
		"deep high tall half quarter full mini miniature jumbo giant standard regular large small medium rectangular oblong circular fluted angel food jelly roll swiss cookie",
		"baking cake layer layers bread roasting glass metal nonstick non-stick greased pair of one a an the each and")
)

// isPan reports whether words name a pan: all of them are of those said of
// pans, and one of them, two sizes or an inch tells that a pan is meant.
func isPan(words string) bool {
	kind, sizes, times, length := false, 0, false, false
	for _, t := range scan(words) {
		switch lower := strings.ToLower(t.Value); {
		case panKinds[lower]:
			kind = true
		case t.Type == tokTimes, lower == "by":
			times = true
		case t.Type == tokInt, t.Type == tokDecimal, t.Type == tokFraction, t.Type == tokVulgar:
			sizes++
		case t.Type == tokLength:
			length = true
		case t.Type == tokNumber, t.Type == tokDash, t.Type == tokComma, t.Type == tokMark:
		case !panWords[lower] && !sizesJoined(lower, &sizes, &times):
			return false
		}
	}
	return kind || times && sizes > 1 || length && sizes > 0
}

// sizesJoined takes an "x" that a size follows at once, as the lexer gives it:
// the x8 of "8x8".
func sizesJoined(word string, sizes *int, times *bool) bool {
	after, ok := strings.CutPrefix(word, "x")
	if !ok || after == "" || strings.Trim(after, "0123456789x") != "" {
		return false
	}
	*sizes, *times = *sizes+1, true
	return true
}

// isSized reports whether the words for a pan give a size, or say pan.
func isSized(words string) bool {
	for _, t := range scan(words) {
		switch strings.ToLower(t.Value) {
		case "pan", "pans", "tin", "tins", "mold", "mould":
			return true
		}
		if t.Type == tokInt || t.Type == tokDecimal || t.Type == tokFraction || t.Type == tokVulgar {
			return true
		}
	}
	return false
}

func withoutArticle(s string) string {
	for _, article := range []string{"a ", "an ", "the "} {
		if len(s) > len(article) && strings.EqualFold(s[:len(article)], article) {
			return s[len(article):]
		}
	}
	return s
}
