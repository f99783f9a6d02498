package store

import (
	"crypto/rand"
	"encoding/base32"
	"encoding/binary"
	"math"
	"strings"
	"time"
	"unicode"
)

// Key layout. One byte says what a key is about; numbers are big-endian, so
// that keys sort as their numbers do.
//
//	m NAME                              about the store: "schema" -> JSON
//	m gone AREA                         -> nothing; a workspace that is being removed, see remove
//	w LEN WORKSPACE KIND ...            everything of a workspace; LEN is one byte
//
// LEN makes the prefix of a workspace no prefix of another's. KIND and what
// follows it:
//
//	S LEN2 CONVERSATION                 -> REVISION8 STATE
//	E LEN2 CONVERSATION                 -> expiry, SECONDS8
//	r RECIPE13                          -> JSON of a RecipeHead
//	v RECIPE13 NUMBER4                  -> JSON of a RecipeVersion, from 1
//	N NAME                              -> RECIPE13; folded name, live recipes only
//	W WORD 0 RECIPE13                   index: words of names
//	T TAG 0 RECIPE13                    index: folded tags
//	F TAGNAME 0 FLAG FLOAT8 RECIPE13    index: figures; FLAG is 1 for "at least"
//	D SECONDS8 RECIPE13                 deleted recipes by time
//	f NAME | w WORDS | t NAME           -> JSON of a TeamFood, TeamWord, Target
//	s KEY                               -> JSON of a setting
//	C NANOSECONDS8 RANDOM4              -> JSON of a Change
//	H RECIPE13 NANOSECONDS8 RANDOM4     -> the same, by recipe
//	e EVENT                             -> SECONDS8 DONE1, and TALK16 if it has a payload
//	p TALK16 LEN2 EVENT                 -> NANOSECONDS8 ARRIVED8 PAYLOAD; empty once done
//	k TALK16 NAME16                     -> SECONDS8 LEN2 CONVERSATION VALUE of a Mark; empty once elsewhere
//	K NAME16                            -> TALK16; where the mark of a name is
//	a                                   -> JSON of an access with its token sealed; empty once withdrawn
//	L                                   -> SECONDS8; when the workspace left
//
// TALK16 is the start of the SHA-256 of the conversation's id: an event outlives
// a conversation that is forgotten, whose id must not be left. NAME16 is that of
// a mark's name, which may hold such an id.
//
// Keys of a conversation, payloads, marks (k) and accesses are never deleted one
// by one, only dropped by prefix: see ForgetConversation.
const (
	kindState    = 'S'
	kindExpiry   = 'E'
	kindRecipe   = 'r'
	kindVersion  = 'v'
	kindName     = 'N'
	kindWord     = 'W'
	kindTag      = 'T'
	kindFigure   = 'F'
	kindDeleted  = 'D'
	kindFood     = 'f'
	kindMeaning  = 'w'
	kindTarget   = 't'
	kindSetting  = 's'
	kindChange   = 'C'
	kindHistory  = 'H'
	kindEvent    = 'e'
	kindPayload  = 'p'
	kindMark     = 'k'
	kindMarkName = 'K'
	kindAccess   = 'a'
	kindLeft     = 'L'
)

const (
	spaceMeta      = 'm'
	spaceWorkspace = 'w'
	maxWorkspace   = 64
	idLen          = 13
)

var (
	keySchema  = []byte("mschema")
	keyRemoval = []byte("mgone") // followed by an area
)

// area is the prefix of a workspace's keys.
type area []byte

func areaOf(workspace string) area {
	a := append(make(area, 0, 2+len(workspace)), spaceWorkspace, byte(len(workspace)))
	return append(a, workspace...)
}

// workspaceOf is the inverse of areaOf, for any key of a workspace.
func workspaceOf(key []byte) (string, bool) {
	if len(key) < 2 || key[0] != spaceWorkspace || len(key) < 2+int(key[1]) {
		return "", false
	}
	return string(key[2 : 2+key[1]]), true
}

// kindOf gives the kind of a key of a workspace; 0 for any other.
func kindOf(key []byte) byte {
	if name, ok := workspaceOf(key); ok && len(key) > 2+len(name) {
		return key[2+len(name)]
	}
	return 0
}

// key joins parts: strings and bytes as they are, numbers big-endian.
func (a area) key(kind byte, parts ...any) []byte {
	k := append(make([]byte, 0, len(a)+48), a...)
	k = append(k, kind)
	for _, p := range parts {
		switch p := p.(type) {
		case string:
			k = append(k, p...)
		case []byte:
			k = append(k, p...)
		case byte:
			k = append(k, p)
		case uint32:
			k = binary.BigEndian.AppendUint32(k, p)
		case uint64:
			k = binary.BigEndian.AppendUint64(k, p)
		case time.Time:
			k = binary.BigEndian.AppendUint64(k, uint64(p.Unix()))
		case float64:
			k = binary.BigEndian.AppendUint64(k, ordered(p))
		default:
			panic("store: unknown part of a key")
		}
	}
	return k
}

// conversation is a key of a conversation; its length stands before the id, so
// that no conversation's key begins another's.
func (a area) conversation(kind byte, id string) []byte {
	return a.key(kind, byte(len(id)>>8), byte(len(id)), id)
}

// figure is the start of the keys of one figure; known or "at least".
func (a area) figure(tag string, atLeast bool) []byte {
	flag := byte(0)
	if atLeast {
		flag = 1
	}
	return a.key(kindFigure, tag, byte(0), flag)
}

// ordered maps a float to a number that sorts as the float does.
func ordered(f float64) uint64 {
	if f == 0 {
		f = 0 // -0 and 0 are one figure
	}
	b := math.Float64bits(f)
	if b>>63 == 1 {
		return ^b
	}
	return b | 1<<63
}

// after is the first key beyond all keys with the prefix.
func after(prefix []byte) []byte {
	p := append([]byte(nil), prefix...)
	for i := len(p) - 1; i >= 0; i-- {
		p[i]++
		if p[i] != 0 {
			return p[:i+1]
		}
	}
	return nil
}

// ids of recipes are 64 random bits.
var idAlphabet = base32.NewEncoding("abcdefghijklmnopqrstuvwxyz234567").WithPadding(base32.NoPadding)

func newID() string {
	var b [8]byte
	_, _ = rand.Read(b[:]) // never fails
	return idAlphabet.EncodeToString(b[:])
}

func validID(id string) bool {
	b, err := idAlphabet.DecodeString(id)
	return err == nil && len(b) == 8 && len(id) == idLen
}

// fold is the form in which names are compared.
func fold(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(name), " "))
}

// wordsOf splits a name into the words it is found by, each once.
func wordsOf(name string) []string {
	var out []string
	seen := map[string]bool{}
	for _, w := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r)
	}) {
		if !seen[w] {
			seen[w] = true
			out = append(out, w)
		}
	}
	return out
}
