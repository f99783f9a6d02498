package grammar

import (
	"strconv"
	"strings"
)

// The requests that speak of what the team keeps: its recipe box, its words,
// its foods, and the conversation itself.
const (
	SaveRecipe    RequestKind = iota + 200 // "save as barley soup"
	OpenRecipe                             // "open barley soup", "open version 2 of barley soup"
	ListRecipes                            // "list soups"
	FindRecipes                            // "find recipes under 400 mg sodium"
	TagRecipe                              // "tag soup, winter"
	RenameRecipe                           // "rename to bean soup"
	DeleteRecipe                           // "delete barley soup"
	RestoreRecipe                          // "restore barley soup"
	RecipeHistory                          // "history of barley soup"
	TeamWord                               // "our milk is skim"
	ForgetWord                             // "forget our milk"
	AddFood                                // "add food: oat bar, 40 g: 150 kcal, fat 5 g"
	ChangeFood                             // "change food oat bar: sodium 120 mg"
	ShowFood                               // "show food oat bar"
	RemoveFood                             // "remove food oat bar"
	ListTargets                            // "targets"
	SetAlways                              // "always show phosphorus", "always metric"
	ShowSettings                           // "settings"
	ForgetAll                              // "forget everything about this conversation"
	Yes                                    // "yes"
	No                                     // "no"
)

// boxNode is the grammar of these requests. Each begins with a word of its own.
type boxNode struct {
	Yes     bool        `parser:"  @( 'yes' | 'ok' | 'sure' ) EOF"`
	No      bool        `parser:"| @( 'no' | 'cancel' ) EOF"`
	Targets bool        `parser:"| @( ( 'list' | 'show' )? ( 'the' )? 'targets' ) EOF"`
	Setup   bool        `parser:"| @( ( 'list' | 'show' )? ( 'the' | 'our' )? 'settings' ) EOF"`
	Always  *restNode   `parser:"| 'always' @@"`
	Forget  *forgetNode `parser:"| @@"`
	Save    *saveNode   `parser:"| @@"`
	Open    *openNode   `parser:"| @@"`
	Find    *findNode   `parser:"| @@ EOF"`
	List    *listNode   `parser:"| @@"`
	Tag     *restNode   `parser:"| 'tag' ( 'it' | 'this' | 'as' | 'with' | ':' )* @@"`
	Rename  *renameNode `parser:"| @@"`
	Delete  *restNode   `parser:"| 'delete' ( 'the' 'recipe' | 'recipe' )? @@"`
	Restore *restNode   `parser:"| 'restore' ( 'the' 'recipe' | 'recipe' )? @@"`
	History *restNode   `parser:"| 'history' 'of' @@"`
	Our     *ourNode    `parser:"| @@"`
	AddFood *restNode   `parser:"| 'add' ( 'a' )? 'food' ':'? @@"`
	Change  *restNode   `parser:"| 'change' ( 'the' )? 'food' ':'? @@"`
	Food    *restNode   `parser:"| 'show' 'food' @@"`
	NoFood  *restNode   `parser:"| ( 'remove' | 'delete' ) 'food' @@"`
}

type forgetNode struct {
	All  bool      `parser:"'forget' ( @( 'everything' | 'all' | 'this' 'conversation' )"`
	Tail *restNode `parser:"           ( @@ )?"`
	Our  *restNode `parser:"         | 'our' @@ )"`
}

type saveNode struct {
	Save bool      `parser:"@'save' ( 'it' | 'this' | 'the' 'recipe' )*"`
	As   *restNode `parser:"( 'as' @@ )?"`
}

type openNode struct {
	Open    bool      `parser:"@'open' ( 'the' 'recipe' | 'recipe' )?"`
	Version string    `parser:"( 'version' @Int 'of' )?"`
	Name    *restNode `parser:"@@"`
}

type findNode struct {
	Find  bool         `parser:"@'find' ( 'all' | 'me' )*"`
	Words *wordsOnly   `parser:"( @@ )?"`
	Limit []*limitNode `parser:"( ( 'with' | 'that' | 'have' | 'of' )* @@ ( ( Comma | 'and' )+ @@ )* )?"`
}

type listNode struct {
	List bool      `parser:"  @( 'list' | 'recipes' )"`
	What *restNode `parser:"  ( @@ )?"`
}

type renameNode struct {
	From *nounNode `parser:"'rename' ( 'it' | 'this' | 'the' 'recipe' )* ( @@ )? 'to'"`
	To   *restNode `parser:"@@"`
}

type ourNode struct {
	Words *nounIs   `parser:"'our' @@ ( 'is' | 'are' | 'means' | '=' )"`
	Is    *restNode `parser:"@@"`
}

type nounIs struct {
	Words []string `parser:"( (?! 'is' | 'are' | 'means' ) @( Word | Container | Count | Size ) )+"`
}

// box evaluates a request about what the team keeps.
func (c *change) box(n *boxNode) (Request, bool) {
	rest := func(kind RequestKind, r *restNode) (Request, bool) { return Request{Kind: kind, Food: c.rest(r)}, true }
	switch {
	case n.Yes:
		return Request{Kind: Yes}, true
	case n.No:
		return Request{Kind: No}, true
	case n.Targets:
		return Request{Kind: ListTargets}, true
	case n.Setup:
		return Request{Kind: ShowSettings}, true
	case n.Forget != nil && n.Forget.Our != nil:
		return rest(ForgetWord, n.Forget.Our)
	case n.Forget != nil:
		return Request{Kind: ForgetAll}, true
	case n.Save != nil && n.Save.As != nil:
		return rest(SaveRecipe, n.Save.As)
	case n.Save != nil:
		return Request{Kind: SaveRecipe}, true
	case n.Open != nil:
		r := Request{Kind: OpenRecipe, Food: c.rest(n.Open.Name)}
		if v, err := strconv.Atoi(n.Open.Version); err == nil {
			r.Numbers = []int{v}
		}
		return r, true
	case n.Find != nil:
		r := Request{Kind: FindRecipes}
		if n.Find.Words != nil {
			r.Food = strings.Join(n.Find.Words.Words, " ")
		}
		for _, l := range n.Find.Limit {
			r.Limits = append(r.Limits, c.limit(l))
		}
		return r, true
	case n.List != nil:
		r := Request{Kind: ListRecipes}
		if n.List.What != nil {
			r.Food = c.rest(n.List.What)
		}
		return r, true
	case n.Rename != nil:
		r := Request{Kind: RenameRecipe, New: c.rest(n.Rename.To)}
		if n.Rename.From != nil {
			r.Food = c.span(n.Rename.From.Pos, n.Rename.From.EndPos)
		}
		return r, true
	case n.Our != nil:
		return Request{Kind: TeamWord, Food: strings.Join(n.Our.Words.Words, " "), New: c.rest(n.Our.Is)}, true
	}
	for _, plain := range []struct {
		rest *restNode
		kind RequestKind
	}{{n.NoFood, RemoveFood}, {n.Always, SetAlways}, {n.AddFood, AddFood}, {n.Change, ChangeFood}, {n.Food, ShowFood}, {n.Tag, TagRecipe}, {n.Delete, DeleteRecipe}, {n.Restore, RestoreRecipe}, {n.History, RecipeHistory}} {
		if plain.rest != nil {
			return rest(plain.kind, plain.rest)
		}
	}
	return Request{}, false
}
