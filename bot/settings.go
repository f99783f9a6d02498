package bot

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// settings are what the team wants always.
type settings struct {
	figures  []fooddata.Nutrient // shown beside the usual ones
	servings *big.Rat            // of a recipe that does not say; nil to ask
	measures string              // "metric" or "US"; empty to go by the recipe
}

// The keys of the settings in the store.
const (
	settingFigures  = "figures"  // tagnames with commas between
	settingServings = "servings" // a whole number
	settingMeasures = "measures"
)

// readSettings takes up the team's settings; one that is not understood any more
// is left out.
func (c *Conversation) readSettings() error {
	kept, err := c.memory.Team.Settings(c.ctx)
	if err != nil {
		return fmt.Errorf("read the team's settings: %w", err)
	}
	c.always = settings{measures: kept[settingMeasures]}
	for _, tag := range strings.Split(kept[settingFigures], ",") {
		if n, ok := fooddata.NutrientByTag(tag); ok {
			c.always.figures = append(c.always.figures, n)
		}
	}
	if n, ok := new(big.Rat).SetString(kept[settingServings]); ok && n.Sign() > 0 {
		c.always.servings = n
	}
	return nil
}

// apply puts the settings into a recipe that is pasted and says what was assumed
// for it.
func (s settings) apply(r *grammar.Recipe) (assumed []string) {
	if s.measures != "" {
		r.Metric = s.measures == "metric"
	}
	if s.servings != nil && r.Servings.Low == nil {
		r.Servings = grammar.Quantity{Low: s.servings, High: s.servings}
		assumed = append(assumed, fmt.Sprintf("it is not said how many it serves: %s, as the team has it; say \"servings 6\" to change it", s.servings.RatString()))
	}
	return assumed
}

// String says what is set.
func (s settings) String() string {
	shown := "the usual figures"
	if len(s.figures) > 0 {
		var names []string
		for _, n := range s.figures {
			names = append(names, n.Name())
		}
		shown += " and " + strings.Join(names, ", ")
	}
	servings := "asked for"
	if s.servings != nil {
		servings = "taken as " + s.servings.RatString()
	}
	measures := "as the recipe has them"
	if s.measures != "" {
		measures = s.measures
	}
	return fmt.Sprintf("Shown: %s. Change it with \"always show phosphorus and magnesium\" or \"always show the usual figures\".\n"+
		"Servings, where a recipe does not say: %s. Change it with \"always 4 servings\" or \"always ask the servings\".\n"+
		"Measures: %s. Change it with \"always metric\", \"always US measures\" or \"always as the recipe\".", shown, servings, measures)
}

// setAlways sets what the team wants always.
func (c *Conversation) setAlways(words string) string {
	key, value, wrong := readAlways(words)
	if wrong != "" {
		return wrong
	}
	if err := c.memory.Team.SetSetting(c.ctx, key, value, c.memory.Who); err != nil {
		return said(err) + " Nothing was set."
	}
	if err := c.readSettings(); err != nil {
		return sentence(err.Error()) + "."
	}
	return "Set for the whole team, for what is pasted from now on.\n" + c.always.String()
}

// readAlways reads the words of a setting.
func readAlways(words string) (key, value, wrong string) {
	words = strings.ToLower(strings.Trim(words, " ."))
	fields := strings.Fields(words)
	has := func(w string) bool { return slices.Contains(fields, w) }
	switch {
	case has("as") && has("recipe"):
		return settingMeasures, "", ""
	case has("metric"):
		return settingMeasures, "metric", ""
	case has("us") || has("american"):
		return settingMeasures, "US", ""
	case has("ask") && has("servings"):
		return settingServings, "", ""
	case has("servings"), has("serving"):
		said := grammar.ParseLine(strings.TrimPrefix(words, "for "))
		if len(said.Items) == 1 && said.Items[0].Amount != nil {
			n := said.Items[0].Amount.Terms[0].Quantity.Low
			if n.IsInt() && n.Sign() > 0 && n.Cmp(big.NewRat(mostServings, 1)) <= 0 {
				return settingServings, n.RatString(), ""
			}
		}
		return "", "", fmt.Sprintf("%q is no number of servings. Say for instance \"always 4 servings\".", words)
	case has("usual"):
		return settingFigures, "", ""
	}
	var tags []string
	list := strings.TrimSpace(strings.TrimPrefix(words, "show"))
	for _, part := range strings.Split(strings.ReplaceAll(list, " and ", ","), ",") {
		part = strings.TrimSpace(part)
		n, ok := fooddata.NutrientNamed(part)
		if !ok {
			return "", "", fmt.Sprintf("%q is nothing that can be set. Say \"settings\" to see what can.", part)
		}
		if !slices.ContainsFunc(shown, func(r row) bool { return r.nutrient == n }) && !slices.Contains(tags, n.Tag()) {
			tags = append(tags, n.Tag())
		}
	}
	return settingFigures, strings.Join(tags, ","), ""
}
