package slack

import (
	"cmp"
	"strings"
	"time"

	"github.com/slack-go/slack"
	"github.com/slack-go/slack/slackevents"
)

// said is one thing that somebody said to pottle, whichever way it came.
type said struct {
	way   string // for the log and the metrics: "direct", "mention", ...
	event string // what a repetition has in common with it

	ws                  *workspace // that it was said in
	team, channel, user string

	conversation string // id in the store
	thread       string // where the answer is posted; "" for the channel itself
	ts           string // of the message, if it is one
	text         string // as typed

	file     string // the address of a text file that is the recipe, whatever the text
	badFile  bool   // a file and no text, and the file is not for reading
	known    bool   // only meant for pottle if the conversation is there
	edited   bool   // the answers to ts are to be changed
	answerAt string // a response_url: the answer is for this person only
	hook     string // a response_url, to tell this person what cannot be told in the channel
	lead     string // what the answer is to say first
	offer    string // the suggestion that a button stands for: see offers
	share    string // the id of a private answer, to be posted in the channel

	id        string    // of the event, among all workspaces
	taken     time.Time // when it was accepted, to be worked
	arrived   time.Time // when it first was, be it before a restart
	begun     *begun
	forgotten bool   // its conversation is forgotten with it
	tries     int    // how often it was begun again after a restart
	reply     string // what it is to be answered, if it was worked before a restart
}

// lane is where the posts of its answer are lined up: those of a channel keep
// its pace, private ones none.
func (m *said) lane() string {
	if m.answerAt != "" && m.share == "" {
		return m.team + "/" + m.conversation + "/" + m.user
	}
	return m.team + "/" + m.channel
}

// person names who said it, among all workspaces.
func (m *said) person() string { return m.team + "/" + m.user }

// homeWay is the way of a said that is no more than that the Home tab was
// opened.
const homeWay = "home"

// conversationID names a thread's conversation in the store, or with an empty
// thread the channel's own.
func conversationID(channel, thread string) string {
	if thread == "" {
		return "slack/" + channel
	}
	return "slack/" + channel + "/" + thread
}

// ownConversation names the conversation of one person in a channel, that of
// /pottle: nobody else sees it.
func ownConversation(channel, user string) string { return "slack/" + channel + "/for/" + user }

// isRecipe reports whether a text has several lines, as a pasted recipe does.
func isRecipe(text string) bool { return strings.Contains(strings.TrimSpace(text), "\n") }

// typed is what a person typed and did not strike out, from a message's text,
// or from its blocks if the text has lost lines of them.
func typed(text string, blocks slack.Blocks) (kept string, struck []string) {
	text, rich := tidy(text), RichText(blocks.BlockSet)
	if strings.Count(rich, "\n") > strings.Count(Clean(text), "\n") {
		return withoutStruck(rich)
	}
	kept, struck = withoutStruck(text)
	for i := range struck {
		struck[i] = Clean(struck[i])
	}
	return Clean(kept), struck
}

// says takes what was typed as what is said.
func (m *said) says(text string, blocks slack.Blocks) {
	var struck []string
	m.text, struck = typed(text, blocks)
	m.lead = leftOut(struck)
}

// fromEvent reads an event. It gives false for what is not for pottle.
func (s *Server) fromEvent(e slackevents.EventsAPIEvent) (said, bool) {
	m := said{team: e.TeamID, ws: s.workspaces.get(e.TeamID)}
	if callback, ok := e.Data.(*slackevents.EventsAPICallbackEvent); ok {
		m.event = callback.EventID
	}
	switch e.InnerEvent.Data.(type) {
	case *slackevents.AppUninstalledEvent, *slackevents.TokensRevokedEvent:
		return s.fromLeaving(m, e)
	}
	if m.ws == nil {
		return m, false
	}
	switch inner := e.InnerEvent.Data.(type) {
	case *slackevents.AppMentionEvent:
		if inner.BotID != "" || inner.User == m.ws.user || inner.Edited != nil || direct(inner.Channel) || m.stranger(inner.UserTeam, inner.SourceTeam) {
			return m, false
		}
		m.way, m.channel, m.user, m.ts = "mention", inner.Channel, inner.User, inner.TimeStamp
		m.says(inner.Text, inner.Blocks)
		if m.attached(inner.Files); m.file == "" && !m.badFile {
			m.text = cmp.Or(m.text, "help")
		}
		m.thread = cmp.Or(inner.ThreadTimeStamp, inner.TimeStamp)
		m.conversation = conversationID(m.channel, m.thread)
	case *slackevents.MessageEvent:
		if m.stranger(inner.UserTeam, inner.SourceTeam) {
			return m, false
		}
		return s.fromMessage(m, inner)
	case *slackevents.AppHomeOpenedEvent:
		if inner.Tab != "home" {
			return m, false
		}
		m.way, m.channel, m.user, m.text = homeWay, inner.Channel, inner.User, inner.Tab
		m.conversation = "home/" + m.user // of none; for the order
	default:
		return m, false
	}
	return m, m.complete()
}

// fromMessage reads a message that did not name pottle.
func (s *Server) fromMessage(m said, e *slackevents.MessageEvent) (said, bool) {
	msg := e.Message
	switch {
	case msg == nil:
		return m, false
	case e.SubType == slack.MsgSubTypeMessageChanged:
		// Slack also says that a message changed when it adds a link's preview.
		if msg.Edited == nil || e.PreviousMessage != nil && e.PreviousMessage.Text == msg.Text {
			return m, false
		}
		m.edited = true
	case e.SubType == "" || e.SubType == slack.MsgSubTypeFileShare || e.SubType == slack.MsgSubTypeThreadBroadcast:
	default:
		return m, false
	}
	if msg.BotID != "" || msg.User == "" || msg.User == m.ws.user || msg.SubType == slack.MsgSubTypeBotMessage {
		return m, false
	}
	m.channel, m.user, m.ts, m.thread = e.Channel, msg.User, msg.Timestamp, msg.ThreadTimestamp
	m.says(msg.Text, msg.Blocks)
	m.attached(msg.Files)
	named := strings.Contains(msg.Text, "<@"+m.ws.user)
	switch {
	case e.ChannelType == slackevents.ChannelTypeIM || direct(e.Channel):
		m.way = "direct"
		s.place(&m)
	case named && !m.edited:
		return m, false // it comes as a mention as well
	case m.thread == "" && !m.edited:
		return m, false // talk of others
	default:
		m.way, m.known, m.badFile = "thread", true, false // people may show one another pictures
		m.thread = cmp.Or(m.thread, m.ts)
		m.conversation = conversationID(m.channel, m.thread)
	}
	if m.edited {
		m.way = "edit"
	}
	return m, m.complete()
}

// place finds the conversation of a direct message. A recipe begins a thread
// on its message. What is said outside a thread is about the last recipe, if
// there was one, and is answered where it was said.
func (s *Server) place(m *said) {
	if m.thread == "" && m.begins() {
		m.thread = m.ts
	}
	if m.thread == "" {
		m.conversation = conversationID(m.channel, s.lastThread(*m))
		return
	}
	m.conversation = conversationID(m.channel, m.thread)
	if m.begins() && m.thread > s.lastThread(*m) {
		s.latest.put(m.team+"/"+m.channel, m.thread) // kept once it is worked: see noteLast
	}
}

// fromCommand reads /pottle.
func (s *Server) fromCommand(c slack.SlashCommand) (said, bool) {
	m := said{
		way: "command", event: "trigger/" + c.TriggerID, team: c.TeamID, channel: c.ChannelID, user: c.UserID,
		ws: s.workspaces.get(c.TeamID), conversation: ownConversation(c.ChannelID, c.UserID), answerAt: c.ResponseURL,
		text: cmp.Or(Clean(c.Text), "help"),
	}
	return m, m.ws != nil && c.TriggerID != "" && m.answerAt != "" && m.complete()
}

// Names that Slack sends back: of the message shortcut, and of the button that
// shares a private answer.
const (
	useMessage  = "use_message"
	shareAction = "share"
)

// fromInteraction reads a message shortcut or a button.
func (s *Server) fromInteraction(c slack.InteractionCallback) (said, bool) {
	m := said{event: "trigger/" + c.TriggerID, team: c.Team.ID, ws: s.workspaces.get(c.Team.ID), user: c.User.ID,
		channel: cmp.Or(c.Channel.ID, c.Container.ChannelID)}
	if m.ws == nil || m.stranger(c.User.TeamID) || c.TriggerID == "" {
		return m, false
	}
	thread := cmp.Or(c.Message.ThreadTimestamp, c.Container.ThreadTs)
	switch {
	case c.Type == slack.InteractionTypeMessageAction && c.CallbackID == useMessage:
		m.way, m.hook = "shortcut", c.ResponseURL
		m.says(c.Message.Text, c.Message.Blocks)
		m.attached(c.Message.Files)
		m.ts = c.Message.Timestamp
		m.thread = cmp.Or(thread, m.ts)
		m.conversation = conversationID(m.channel, m.thread)
		if direct(m.channel) {
			s.place(&m)
		}
	case c.Type == slack.InteractionTypeBlockActions && len(c.ActionCallback.BlockActions) > 0:
		action := c.ActionCallback.BlockActions[0]
		m.way, m.thread = "button", thread
		m.text, m.offer, _ = strings.Cut(action.Value, offerSign)
		m.conversation = conversationID(m.channel, m.thread)
		switch {
		case action.ActionID == shareAction:
			m.way, m.share, m.answerAt = "share", action.Value, c.ResponseURL
		case c.Container.IsEphemeral:
			m.answerAt = c.ResponseURL
			m.conversation = ownConversation(m.channel, m.user)
		case direct(m.channel):
			s.place(&m)
		}
	default:
		return m, false
	}
	return m, m.complete()
}

// complete reports whether all is there that an answer needs.
func (m *said) complete() bool {
	if m.event == "" {
		m.event = "message/" + m.channel + "/" + m.ts
	}
	return m.team != "" && m.channel != "" && m.user != "" && m.conversation != "" &&
		(strings.TrimSpace(m.text) != "" || m.file != "" || m.badFile)
}

// direct reports whether a channel is a conversation of one person with the bot.
func direct(channel string) bool { return strings.HasPrefix(channel, "D") }

// stranger reports whether the person belongs to another workspace that shares
// the channel: what this one keeps is not theirs to see.
func (m *said) stranger(teams ...string) bool {
	for _, team := range teams {
		if team != "" && team != m.team {
			return true
		}
	}
	return false
}
