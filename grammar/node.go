package grammar

import "github.com/alecthomas/participle/v2/lexer"

// The nodes of the line grammar, as participle reads them; the EBNF they
// stand for is kept in testdata/ebnf.golden. A line is an amount, if it
// begins with one, and then any parts whatever: every line parses. What the
// parts mean is decided in interpret.go.
//
// Of a branch that fails participle may leave set what was captured before
// the branch's last node. Only the last node tells that a branch was taken.

type lineNode struct {
	Lead  *amountNode `parser:"@@?"`
	Parts []*partNode `parser:"@@*"`
}

type partNode struct {
	Pos    lexer.Position
	EndPos lexer.Position // where the next part begins
	Word   string         `parser:"  @(Word | Number | Article | Volume | Weight | Length | Count | Container | Size | Hedge)"`
	Comma  string         `parser:"| @Comma"`
	Group  *groupNode     `parser:"| @@"`
	Amount *amountNode    `parser:"| (?= Int | Decimal | Fraction | Vulgar) @@"`
	Mark   string         `parser:"| @(Int | Decimal | Fraction | Vulgar | Dash | Slash | Times | Mark)"`
}

type groupNode struct {
	Parts []*partNode `parser:"Open @@* Close"`
}

// amountNode is an amount, perhaps up to another ("2 cups to 3 cups"), and
// perhaps said twice ("8 oz / 225 g").
type amountNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Sum    *sumNode    `parser:"@@"`
	To     *termNode   `parser:"( ( Dash? 'to' | Dash ) @@ )?"`
	Same   []*sameNode `parser:"@@*"`
}

// sameNode is the second saying of an amount: "1 lb 8 oz".
type sameNode struct {
	Or    bool        `parser:"( @'or' | Slash | '=' )"`
	Terms []*termNode `parser:"@@+"`
}

// sumNode is "1 cup plus 2 tablespoons" or "1 lb 8 oz".
type sumNode struct {
	First *firstNode  `parser:"@@"`
	More  []*moreNode `parser:"@@*"`
}

// moreNode is a further term of a sum, with or without a word for it.
type moreNode struct {
	Plus bool      `parser:"Comma? @( 'plus' | '+' | 'and' | '&' )?"`
	Term *termNode `parser:"@@"`
}

// firstNode is the first term: a package, or a count of packages, or a
// plain quantity with a measure.
type firstNode struct {
	Hedge   []string      `parser:"@Hedge*"`
	Bare    *packageNode  `parser:"(   @@"`
	Many    *manyNode     `parser:"  | @@"`
	Count   *quantityNode `parser:"  | @@ ( (?= 'of'? Article ( Volume | Weight | Count | Container | Int | Open ) ) 'of'? Article )?"`
	Package *packageNode  `parser:"    ( ( Times Dash? | Dash )? @@ )?"`
	Level   []string      `parser:"    ( Times | Dash )? @Hedge*"`
	Size    string        `parser:"    @Size?"`
	Comma   string        `parser:"    @Comma?"`
	Unit    string        `parser:"    @( Volume | Weight | Length | Count | Container )? )"`
	Part    string        `parser:"( (?= ( 'and' | '&' ) ( ( Article | 'one' )? ( 'half' | 'third' | 'quarter' ) | Fraction | Vulgar ) (?! Article? ( Volume | Weight | Count | Container | Size ) ) ) ( 'and' | '&' ) ( Article | 'one' )? @( 'half' | 'third' | 'quarter' | Fraction | Vulgar ) )?"` // "a cup and a half"
}

// manyNode is how many of a weight or a volume, told after it: "400 g x 2 tins".
type manyNode struct {
	Holds *termNode     `parser:"@@ Times (?= ( Int | Number ) (?! Volume | Weight | Length | Times ) )"`
	Count *quantityNode `parser:"@@"`
	Unit  string        `parser:"@Container?"`
}

// packageNode is what one package holds and what it is: "400 g tin",
// "(14.5-ounce) can", "large (28 oz) can", "400g/14oz tin".
type packageNode struct {
	Grade string      `parser:"@Size?"`
	Holds []*termNode `parser:"( Open @@ ( ( Slash | 'or' ) @@ )* Close | @@ ( Slash @@ )* )"`
	Size  string      `parser:"Dash? @Size?"`
	Unit  string      `parser:"@Container"`
}

// termNode is a quantity of a volume or a weight.
type termNode struct {
	Hedge    []string      `parser:"@Hedge*"`
	Quantity *quantityNode `parser:"@@"`
	Joint    bool          `parser:"@Dash?"`
	Unit     string        `parser:"Hedge* @( Volume | Weight )"`
}

type quantityNode struct {
	Low  *numberNode `parser:"@@"`
	Dash bool        `parser:"( ( Dash? 'to' | @Dash | 'or' )"`
	High *numberNode `parser:"  @@ )?"`
}

type numberNode struct {
	Pos   lexer.Position
	Whole string   `parser:"( ( @Int ( ( 'and' | '&' ) Article? | Dash )?"`
	Part  string   `parser:"    @( Fraction | Vulgar )"`
	Digit string   `parser:"  | @( Int | Decimal | Fraction | Vulgar )"`
	Half  string   `parser:"    ( (?= ( 'and' | '&' ) Article? ( 'half' | 'third' | 'quarter' ) ) ( 'and' | '&' ) Article? @( 'half' | 'third' | 'quarter' ) )? )"` // "2 and a half"
	Dozen bool     `parser:"  @( 'dozen' | 'doz' )?"`
	Words []string `parser:"  | @Article? @Number ( @( 'and' | '&' )? @Article? @Number )* @Article?"`
	One   string   `parser:"  | @Article )"`
}
