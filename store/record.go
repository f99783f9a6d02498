package store

import (
	"encoding/json"
	"time"
)

// Limits of what is kept. They are far above honest use and keep every record
// within one transaction.
const (
	MaxConversation = 512 << 10 // bytes of a conversation's state
	MaxText         = 128 << 10 // bytes of one version's text
	MaxSave         = 512 << 10 // bytes of new versions in one SaveRecipe
	MaxName         = 200       // bytes of a name, a tag, a setting's key or a person
	MaxID           = 256       // bytes of a conversation's or an event's id
	MaxPayload      = 256 << 10 // bytes of an event's payload
	MaxMark         = 4 << 10   // bytes of a mark's value; its name has at most MaxID
	MaxToken        = 4 << 10   // bytes of an access's token, and of its scopes
	MaxTags         = 50        // tags of a recipe
	MaxFigures      = 80        // figures of a recipe
	MaxShelf        = 64 << 10  // bytes of a food, word, target or setting
	MaxFound        = 1000      // recipes of one FindRecipes
)

// How long things are kept.
const (
	KeepConversation = 90 * 24 * time.Hour // since last used, unless Options say otherwise
	KeepDeleted      = 30 * 24 * time.Hour // deleted recipes
	KeepEvent        = 24 * time.Hour      // ids of the chat platform's events
	KeepMark         = 90 * 24 * time.Hour // marks, since they were set
	KeepLeft         = 30 * 24 * time.Hour // all of a workspace that left
)

// Conversation is the state of one conversation.
type Conversation struct {
	ID       string          `json:"id"`
	State    json.RawMessage `json:"state"`
	Revision int             `json:"revision"`
	Expires  time.Time       `json:"expires"`
}

// Figure is what one serving holds of a nutrient, in the unit of its tagname.
type Figure struct {
	Value float64 `json:"value"`

	// AtLeast says that an ingredient had no value: the true figure may be
	// higher. A figure wholly unknown is {0, true}, never {0, false}.
	AtLeast bool `json:"at_least,omitempty"`
}

// RecipeHead is a recipe without its versions.
type RecipeHead struct {
	ID        string            `json:"id"` // 13 characters, given by the store
	Name      string            `json:"name"`
	Tags      []string          `json:"tags,omitempty"`
	SavedBy   string            `json:"saved_by"`
	SavedAt   time.Time         `json:"saved_at"`
	ChangedBy string            `json:"changed_by"`
	ChangedAt time.Time         `json:"changed_at"`
	DeletedAt time.Time         `json:"deleted_at,omitzero"`
	Revision  int               `json:"revision"`
	Count     int               `json:"count"`             // versions
	Figures   map[string]Figure `json:"figures,omitempty"` // per serving of the last version, by INFOODS tagname
}

// Recipe is a saved recipe with every version, oldest first.
type Recipe struct {
	RecipeHead
	Versions []RecipeVersion `json:"versions"`
}

// RecipeVersion is a recipe as it stood once. It never changes.
type RecipeVersion struct {
	Text     string    `json:"text"`
	Servings float64   `json:"servings,omitempty"` // 0 if not told
	Cooking  string    `json:"cooking,omitempty"`  // what was told of the cooking: "simmered 45 minutes"
	Said     string    `json:"said,omitempty"`     // the words that made it: "swap the butter for oil"
	Who      string    `json:"who"`
	When     time.Time `json:"when"`
}

// TeamFood is a food that the team added from a label.
type TeamFood struct {
	Name     string             `json:"name"`
	Grams    float64            `json:"grams"`             // of a serving
	Serving  string             `json:"serving,omitempty"` // what a serving is called: "1 bar"
	Figures  map[string]float64 `json:"figures"`           // declared per serving, by tagname; what is not declared is not in it
	Who      string             `json:"who"`
	When     time.Time          `json:"when"`
	Revision int                `json:"revision"`
}

// TeamWord is what the team means by some words: "milk" means "skim milk".
type TeamWord struct {
	Words    string    `json:"words"`
	Meaning  string    `json:"meaning"`
	Who      string    `json:"who"`
	When     time.Time `json:"when"`
	Revision int       `json:"revision"`
}

// Target is a set of limits for a serving.
type Target struct {
	Name     string    `json:"name"`
	Limits   []Limit   `json:"limits"`
	Who      string    `json:"who"`
	When     time.Time `json:"when"`
	Revision int       `json:"revision"`
}

// Limit is a bound on one figure per serving.
type Limit struct {
	Tag   string  `json:"tag"` // INFOODS tagname
	Bound Bound   `json:"bound"`
	Value float64 `json:"value"` // in the tagname's unit; itself within the limit
}

// Bound is the sense of a Limit.
type Bound string

// The two bounds.
const (
	AtMost  Bound = "at most"
	AtLeast Bound = "at least"
)

// Change is one line of the record of who changed what.
type Change struct {
	When   time.Time `json:"when"`
	Who    string    `json:"who"`
	Kind   string    `json:"kind"`           // recipe, food, word, target, setting
	Action string    `json:"action"`         // saved, changed, renamed, deleted, restored, removed
	Name   string    `json:"name"`           // as it is called after the change
	ID     string    `json:"id,omitempty"`   // of a recipe
	Note   string    `json:"note,omitempty"` // "was barley soup", "version 3"
}

// EventState says what became of an event.
type EventState int

// The states of an event. Seen and not done means that another goroutine is at
// it, or that the program ended while it was: the caller decides by the time.
const (
	EventNew EventState = iota
	EventSeen
	EventDone
)

// Event is an event of the chat platform with what it takes to work it.
type Event struct {
	ID           string
	Conversation string // whose id it belongs to; forgetting it drops the payload
	Payload      []byte // the caller's affair; it may hold what somebody said
}

// UnfinishedEvent is an event that is to be worked still.
type UnfinishedEvent struct {
	ID      string
	Payload []byte
	When    time.Time // it arrived
}

// Mark is a note of the caller about a conversation, found by a name of its own.
type Mark struct {
	Conversation string // whose id it belongs to; forgetting it drops the mark
	Name         string
	Value        string // the caller's affair; may be empty
}

// Access is what lets the program act in a workspace of a chat platform.
type Access struct {
	Token  Secret    // sealed with the store's key wherever it is kept
	User   string    // id of the bot's user in the workspace
	Bot    string    // id of the bot in the workspace
	Name   string    // of the workspace, as people call it
	Scopes string    // as granted
	By     string    // id of the person who installed it
	When   time.Time // it was granted; filled in by Grant
}

// Query asks for recipes. All conditions must hold; none finds all recipes.
type Query struct {
	// Words must each begin a word of the name; a final s of theirs is left aside.
	Words string
	Tags  []string

	// Limits hold for figures per serving. A figure that is "at least" never
	// meets an AtMost; such recipes are counted in Found.Maybe. A figure that a
	// recipe lacks altogether meets nothing and is not counted.
	Limits []Limit

	Skip int // recipes to leave out at the start
	Max  int // recipes to return, 20 if 0
}

// Found is the answer to a Query. With limits the recipes are ordered by the
// first limit's figure, best first; else by name.
type Found struct {
	Recipes []RecipeHead
	Total   int // recipes that meet the query, returned or not
	Maybe   int // recipes that may meet it, but a figure is "at least"
}
