package bot_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pottle/bot"
	"pottle/engine"
	"pottle/fooddata"
	"pottle/store"
)

// A transcript is a conversation as a text file in testdata. Its lines begin
// with one of these signs and a space:
//
//	# what the conversation shows; ignored
//	> what is said; lines that follow each other are one message
//	= what a line of the reply must be, spaces at the ends apart
//	~ what some line of the reply must contain
//	! what no line of the reply may contain
//	@ who speaks from here on, each in a conversation of their own, with a memory
//	  that they share; "@ NAME again" begins their conversation anew from it
//
// Expectations speak of the reply to the message before them, and those with
// = must come in the order in which the reply has them. A message without an
// expectation is a fault of the transcript. Every reply is also held to what
// all replies owe: the reminder at the end and a block of at most 34 columns.

type exchange struct {
	line   int // of the message in the file
	who    string
	said   string
	expect []expectation
}

type expectation struct {
	line int
	sign byte
	text string
}

// parseTranscript reads a transcript; faults name the line.
func parseTranscript(text string) ([]exchange, []string) {
	var exchanges []exchange
	var faults []string
	saying, who := false, ""
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			saying = false
			continue
		}
		sign, rest, found := strings.Cut(line, " ")
		if !found && line != ">" || len(sign) != 1 || !strings.Contains("#>=~!@", sign) {
			faults = append(faults, "line "+strconv.Itoa(i+1)+": begins with none of the signs: "+line)
			continue
		}
		switch sign {
		case "#":
			saying = false
		case "@":
			saying, who = false, strings.TrimSpace(rest)
		case ">":
			if saying {
				exchanges[len(exchanges)-1].said += "\n" + rest
				continue
			}
			exchanges = append(exchanges, exchange{line: i + 1, who: who, said: rest})
			saying = true
		default:
			saying = false
			if len(exchanges) == 0 {
				faults = append(faults, "line "+strconv.Itoa(i+1)+": expects something before anything is said")
				continue
			}
			last := &exchanges[len(exchanges)-1]
			last.expect = append(last.expect, expectation{i + 1, sign[0], strings.TrimSpace(rest)})
		}
	}
	for _, x := range exchanges {
		if len(x.expect) == 0 {
			faults = append(faults, "line "+strconv.Itoa(x.line)+": nothing is expected of the reply")
		}
	}
	return exchanges, faults
}

// check returns what is wrong with a reply.
func check(reply string, expect []expectation) []string {
	var faults []string
	lines := strings.Split(reply, "\n")
	from := 0
	for _, e := range expect {
		fault := func(what string) {
			faults = append(faults, "line "+strconv.Itoa(e.line)+": "+what+": "+e.text)
		}
		switch e.sign {
		case '=':
			at := -1
			for i := from; i < len(lines); i++ {
				if strings.TrimSpace(lines[i]) == e.text {
					at = i
					break
				}
			}
			if at < 0 {
				fault("no such line in the reply, or not in this order")
				continue
			}
			from = at + 1
		case '~':
			if !strings.Contains(reply, e.text) {
				fault("nowhere in the reply")
			}
		case '!':
			if strings.Contains(reply, e.text) {
				fault("must not be in the reply")
			}
		}
	}
	return faults
}

// owed returns what is wrong with a reply whatever was said.
func owed(reply string) []string {
	var faults []string
	if !strings.HasSuffix(reply, bot.Reminder) {
		faults = append(faults, "the reminder is not at the end")
	}
	inBlock := false
	for line := range strings.Lines(reply) {
		line = strings.TrimRight(line, "\n")
		inBlock = inBlock && line != "" || strings.HasSuffix(line, "% DV") && strings.TrimSpace(line) == "% DV"
		if n := len([]rune(line)); inBlock && n > 34 {
			faults = append(faults, "a line of figures is wider than 34 columns: "+line)
		}
		if strings.TrimRight(line, " ") != line {
			faults = append(faults, "a line ends in a space: "+line)
		}
	}
	return faults
}

func TestTranscripts(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no transcripts found (%v)", err)
	}
	e := newEngine(t)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			exchanges, faults := parseTranscript(string(text))
			for _, f := range faults {
				t.Errorf("%s %s", file, f)
			}
			voices := newVoices(t, e)
			for _, x := range exchanges {
				reply := voices.of(x.who).Reply(x.said)
				faults := append(check(reply, x.expect), owed(reply)...)
				for _, f := range faults {
					t.Errorf("%s: %s", file, f)
				}
				if len(faults) > 0 {
					t.Logf("%s:%d said:\n%s\nreply:\n%s", file, x.line, x.said, reply)
				}
			}
		})
	}
}

// voices are the conversations of a transcript, by who speaks.
type voices struct {
	t      *testing.T
	engine *engine.Engine
	team   store.Workspace
	talk   map[string]*bot.Conversation
}

func newVoices(t *testing.T, e *engine.Engine) *voices {
	return &voices{t: t, engine: e, talk: make(map[string]*bot.Conversation)}
}

// of returns the conversation of a speaker. Without a name there is no memory.
func (v *voices) of(who string) *bot.Conversation {
	name, again := strings.CutSuffix(who, " again")
	if talk := v.talk[name]; talk != nil && !again {
		return talk
	}
	if again && v.talk[who] != nil {
		return v.talk[who]
	}
	talk := bot.NewConversation(v.engine)
	if name != "" {
		if v.team == nil {
			s, err := store.OpenMemory(store.Options{})
			if err != nil {
				v.t.Fatal(err)
			}
			v.t.Cleanup(func() { s.Close() })
			v.team = s.In("clinic")
		}
		if err := talk.Remember(v.t.Context(), bot.Memory{Team: v.team, ID: name, Who: name}); err != nil {
			v.t.Fatal(err)
		}
	}
	v.talk[name], v.talk[who] = talk, talk
	return talk
}

// TestTranscriptRunner shows that the runner finds what is wrong.
func TestTranscriptRunner(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"NoSign", "hello there", "begins with none of the signs"},
		{"NothingSaid", "= Help", "before anything is said"},
		{"NothingExpected", "> help", "nothing is expected"},
	} {
		if _, faults := parseTranscript(c.text); len(faults) == 0 || !strings.Contains(faults[0], c.want) {
			t.Errorf("%s: faults %q, want %q", c.name, faults, c.want)
		}
	}
	reply := "one\ntwo\n\n" + bot.Reminder
	for _, c := range []struct {
		expect []expectation
		faulty bool
	}{
		{[]expectation{{1, '=', "one"}, {2, '=', "two"}}, false},
		{[]expectation{{1, '=', "two"}, {2, '=', "one"}}, true},
		{[]expectation{{1, '=', "tw"}}, true},
		{[]expectation{{1, '~', "tw"}}, false},
		{[]expectation{{1, '~', "three"}}, true},
		{[]expectation{{1, '!', "three"}}, false},
		{[]expectation{{1, '!', "two"}}, true},
	} {
		if got := check(reply, c.expect); len(got) > 0 != c.faulty {
			t.Errorf("check(%v) = %q, faulty is to be %v", c.expect, got, c.faulty)
		}
	}
	if len(owed("one")) == 0 || len(owed("   % DV\nEnergy                              1,000 kcal\n\n"+bot.Reminder)) == 0 {
		t.Error("owed found nothing wrong with a reply without reminder, or with a wide block")
	}
	if got := owed(reply); len(got) > 0 {
		t.Errorf("owed(%q) = %q", reply, got)
	}
}

func newEngine(t testing.TB) *engine.Engine {
	t.Helper()
	table, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	return engine.New(table, engine.Options{})
}
