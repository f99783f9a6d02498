// Package store keeps what a team worked out: conversations, recipes with all
// their versions, the team's own foods and words, targets, settings, and who
// changed what; and what lets the program act in the team's workspace.
//
// [Open] gives a store in a directory and [OpenMemory] one that is gone when
// the program ends; both are badger behind the [Store] interface. A second
// implementation must pass the suite in store/storetest.
//
// # Promises
//
//   - A write that returned nil survives the end of the process at any moment
//     and, as far as the disk keeps its word, a loss of power.
//   - Each method is one transaction: all of it happens or none of it.
//   - Nothing of one workspace is ever visible in another.
//   - A conversation that was forgotten, an access that was withdrawn and a
//     workspace that left [KeepLeft] ago are gone from the files with all that
//     belongs to them, not only out of reach.
//   - The token of an access is kept sealed with the store's key, never without
//     one; no error tells it, and its type hides it from prints and logs.
//   - Whoever changes a record gives the revision last read. Somebody else's
//     change in between gives [ErrConflict] and changes nothing.
//   - Records handed out are copies; changing one changes nothing in the store.
//
// # Errors
//
// Errors carry a code and a message ([Error]); test them with errors.Is against
// the Err variables. Messages name what was asked for, never a recipe's text.
package store

import (
	"context"
	"time"
)

// Store holds the workspaces. It may be used by any number of goroutines.
type Store interface {
	// In gives the part of the store that belongs to one workspace (a chat
	// platform's team id, 1 to 64 bytes). It costs nothing and reads nothing;
	// with an unfit name every method of the result returns ErrInvalid.
	In(workspace string) Workspace

	// Workspaces lists the workspaces that hold anything, sorted.
	Workspaces(ctx context.Context) ([]string, error)

	// Close waits for calls in progress and closes the store. Later calls
	// return ErrClosed. A second Close does nothing.
	Close() error
}

// Workspace is one team's part of a store. Names of recipes, foods, words and
// targets are compared without regard to case and runs of spaces.
type Workspace interface {
	Conversations
	Marks
	Recipes
	Membership

	// Foods holds the team's own foods, Words what its words mean, Targets its
	// limits for a serving.
	Foods() Shelf[TeamFood]
	Words() Shelf[TeamWord]
	Targets() Shelf[Target]

	// Settings returns all settings; a workspace without any gives an empty map.
	Settings(ctx context.Context) (map[string]string, error)

	// SetSetting sets one; an empty value takes it away. The last one wins.
	SetSetting(ctx context.Context, key, value, who string) error

	// Changes returns the latest changes of recipes, foods, words, targets and
	// settings, newest first, at most max of them.
	Changes(ctx context.Context, max int) ([]Change, error)

	// SeeEvent records that an event of the chat platform arrived and says
	// whether it had been seen before. Of several calls at once with one id
	// exactly one gets EventNew. Ids are kept for a day.
	SeeEvent(ctx context.Context, id string) (EventState, error)

	// KeepEvent is SeeEvent that keeps a payload with the event until it is
	// finished, at most for a day, or until its conversation is forgotten. For
	// an event seen before and not done the payload takes the place of what was
	// kept, if anything was; after its conversation was forgotten nothing is
	// kept. Returns ErrTooLarge beyond MaxPayload bytes and
	// ErrInvalid without a payload.
	KeepEvent(ctx context.Context, e Event) (EventState, error)

	// UnfinishedEvents lists the events of the last day that have a payload and
	// were not finished, in the order of their arrival. Those that SeeEvent
	// recorded are not among them.
	UnfinishedEvents(ctx context.Context) ([]UnfinishedEvent, error)

	// FinishEvent records that the event was dealt with: from now on SeeEvent
	// gives EventDone. Its payload is out of reach at once and gone from the
	// store's files after the next housekeeping. Returns ErrNotFound if it was
	// not seen.
	FinishEvent(ctx context.Context, id string) error
}

// Conversations keeps the state of conversations. What a state holds is the
// caller's affair.
type Conversations interface {
	// Conversation returns a state and renews its expiry. Returns ErrNotFound
	// if there is none or it has expired.
	Conversation(ctx context.Context, id string) (Conversation, error)

	// SaveConversation keeps a state and renews its expiry. Revision is that of
	// the state last read, 0 for a new conversation; else ErrConflict. Returns
	// the conversation with its new revision and expiry. Returns ErrTooLarge
	// beyond MaxConversation bytes and ErrInvalid if State is not JSON.
	SaveConversation(ctx context.Context, c Conversation) (Conversation, error)

	// ForgetConversation removes every trace of a conversation: once it
	// returns nil, neither the state, nor any earlier one, nor the id, nor a
	// payload of its events, nor a mark is left in the store's files. A
	// conversation that is not there is no error, so an interrupted call can be
	// repeated. Recipes saved from it stay.
	ForgetConversation(ctx context.Context, id string) error
}

// Marks keeps small notes about conversations for KeepMark, such as which of
// them was the last in a place. Names are the caller's affair; they leave no
// trace either when the conversation is forgotten.
type Marks interface {
	// SetMark keeps a mark. It takes the place of one of the same name, of
	// whichever conversation. Returns ErrInvalid for an unfit name or id (1 to
	// MaxID bytes) and ErrTooLarge beyond MaxMark bytes.
	SetMark(ctx context.Context, m Mark) error

	// Mark returns the mark of a name. Returns ErrNotFound if there is none, if
	// it was set KeepMark ago, or if its conversation was forgotten.
	Mark(ctx context.Context, name string) (Mark, error)
}

// Membership is whether, and by what, the program is in a workspace of a chat
// platform that many workspaces install it in.
type Membership interface {
	// Access returns what lets the program act in the workspace. Returns
	// ErrNotFound if there is none and ErrKey if it was sealed with another key
	// than the store's: then it is to be installed again.
	Access(ctx context.Context) (Access, error)

	// Grant keeps an access, in place of an earlier one, and ends a withdrawal.
	// Returns ErrKey if the store has no key, and ErrInvalid if Token or User is
	// empty or a field is over MaxName bytes (Token and Scopes: MaxToken).
	Grant(ctx context.Context, a Access) error

	// Withdraw removes the access, and earlier ones, from the store's files
	// before it returns nil, and marks the workspace as left now: all of it is
	// removed for good by the housekeeping KeepLeft later, unless Grant or Stay
	// comes before. A workspace that has left keeps its first time. Without an
	// access it is no error, and one that holds nothing is not marked.
	Withdraw(ctx context.Context) error

	// Stay ends a withdrawal without an access, for a program whose token is
	// not kept in the store.
	Stay(ctx context.Context) error

	// Left returns when the workspace left, to the second; zero if it has not.
	Left(ctx context.Context) (time.Time, error)
}

// Recipes is the recipe box.
type Recipes interface {
	// Recipe returns a recipe with all versions, deleted ones (DeletedAt set)
	// too. Returns ErrNotFound.
	Recipe(ctx context.Context, id string) (Recipe, error)

	// RecipeNamed is Recipe by name; a deleted recipe has no name to go by.
	RecipeNamed(ctx context.Context, name string) (Recipe, error)

	// SaveRecipe adds a recipe (Revision 0) or changes one: name, tags,
	// figures, and versions added at the end. Empty ID, SavedBy, SavedAt, and a
	// version's empty Who and When are filled in. Returns the recipe as kept.
	// Returns ErrConflict if somebody else changed it meanwhile, ErrExists if
	// the name or the ID is taken, ErrNotFound if it is deleted or was never
	// there, ErrInvalid if an earlier version was changed or a field is unfit,
	// ErrTooLarge beyond MaxText for one version or MaxSave for what is new.
	SaveRecipe(ctx context.Context, r Recipe, who string) (Recipe, error)

	// DeleteRecipe takes a recipe out of the box. For KeepDeleted it can be
	// restored; after that its text and its history are removed for good.
	// Returns ErrNotFound, ErrConflict.
	DeleteRecipe(ctx context.Context, id string, revision int, who string) error

	// RestoreRecipe brings a deleted recipe back, under its old name if as is
	// empty. Returns ErrNotFound, or ErrExists if the name was taken meanwhile.
	RestoreRecipe(ctx context.Context, id, as, who string) (Recipe, error)

	// DeletedRecipes lists what can be restored, the last deleted first.
	DeletedRecipes(ctx context.Context) ([]RecipeHead, error)

	// FindRecipes searches by name, tags and figures; see Query.
	FindRecipes(ctx context.Context, q Query) (Found, error)

	// EachRecipe calls fn with every recipe that is not deleted, by name, as
	// they stood when it was called, until fn returns an error, which it passes on.
	EachRecipe(ctx context.Context, fn func(Recipe) error) error

	// RecipeChanges returns who changed a recipe when, oldest first. Returns
	// ErrNotFound.
	RecipeChanges(ctx context.Context, id string) ([]Change, error)
}

// Shelf keeps named records of one kind.
type Shelf[T any] interface {
	// Get returns the record of that name, or ErrNotFound.
	Get(ctx context.Context, name string) (T, error)

	// List returns all records by name.
	List(ctx context.Context) ([]T, error)

	// Save adds (Revision 0) or changes a record and returns it as kept, with
	// Who and When filled in. Returns ErrExists if a new one's name is taken,
	// ErrConflict if somebody else changed it meanwhile, ErrNotFound if it was
	// removed meanwhile, ErrInvalid.
	Save(ctx context.Context, record T, who string) (T, error)

	// Remove removes a record for good. Returns ErrNotFound, ErrConflict.
	Remove(ctx context.Context, name string, revision int, who string) error
}
