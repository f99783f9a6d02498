package store

import (
	"math"
	"slices"
	"strings"
	"unicode"
)

// sameBeginning returns ErrInvalid unless now begins with the old versions.
func sameBeginning(old, now []RecipeVersion) error {
	if len(now) < len(old) {
		return fault(ErrInvalid, "a recipe's versions cannot be taken away (%d of %d given)", len(now), len(old))
	}
	for i := range old {
		o, n := old[i], now[i]
		same := o.When.Equal(n.When)
		o.When, n.When = noTime, noTime
		if !same || o != n {
			return fault(ErrInvalid, "version %d of the recipe cannot be changed", i+1)
		}
	}
	return nil
}

// clean checks and tidies what is to be saved; it changes nothing of r's own.
func clean(r Recipe, who string) (Recipe, error) {
	if err := validWho(who); err != nil {
		return r, err
	}
	if r.ID != "" && !validID(r.ID) || r.ID == "" && r.Revision != 0 {
		return r, fault(ErrInvalid, "%q is no id of a recipe", r.ID)
	}
	r.Name = strings.Join(strings.Fields(r.Name), " ")
	if err := validName("a recipe", r.Name); err != nil {
		return r, err
	}
	tags, err := cleanTags(r.Tags)
	if err != nil {
		return r, err
	}
	r.Tags = tags
	r.DeletedAt = noTime
	if r.Figures, err = cleanFigures(r.Figures); err != nil {
		return r, err
	}
	return r, validVersions(r.Versions)
}

func validVersions(versions []RecipeVersion) error {
	if len(versions) == 0 {
		return fault(ErrInvalid, "a recipe needs a version")
	}
	for i, v := range versions {
		if n := len(v.Text) + len(v.Said); n > MaxText {
			return fault(ErrTooLarge, "version %d has %d bytes of text, at most %d are kept", i+1, n, MaxText)
		}
		if !finite(v.Servings) || v.Servings < 0 {
			return fault(ErrInvalid, "version %d serves %v", i+1, v.Servings)
		}
		if len(v.Who) > MaxName {
			return fault(ErrInvalid, "version %d: a person's name has at most %d bytes", i+1, MaxName)
		}
	}
	return nil
}

func cleanTags(tags []string) ([]string, error) {
	var out []string
	for _, tag := range tags {
		if err := validName("a tag", tag); err != nil {
			return nil, err
		}
		if tag = fold(tag); !slices.Contains(out, tag) {
			out = append(out, tag)
		}
	}
	if len(out) > MaxTags {
		return nil, fault(ErrTooLarge, "a recipe has at most %d tags, not %d", MaxTags, len(out))
	}
	slices.Sort(out)
	return out, nil
}

func cleanFigures(figures map[string]Figure) (map[string]Figure, error) {
	if len(figures) > MaxFigures {
		return nil, fault(ErrTooLarge, "a recipe has at most %d figures, not %d", MaxFigures, len(figures))
	}
	var out map[string]Figure
	for tag, f := range figures {
		if err := validTagname(tag); err != nil {
			return nil, err
		}
		if !finite(f.Value) {
			return nil, fault(ErrInvalid, "the figure of %s is %v", tag, f.Value)
		}
		if out == nil {
			out = map[string]Figure{}
		}
		out[tag] = f
	}
	return out, nil
}

// validTagname accepts INFOODS tagnames and names like them (SUGAR_ADDED).
func validTagname(tag string) error {
	if tag == "" || len(tag) > 32 || strings.ContainsFunc(tag, func(r rune) bool { return r <= ' ' || r > '~' }) {
		return fault(ErrInvalid, "%q is no tagname", tag)
	}
	return nil
}

// validName accepts names that a person could have written.
func validName(kind, name string) error {
	switch {
	case fold(name) == "":
		return fault(ErrInvalid, "%s needs a name", kind)
	case len(name) > MaxName || len(fold(name)) > MaxName:
		return fault(ErrInvalid, "the name of %s has at most %d bytes", kind, MaxName)
	case strings.ContainsFunc(name, unicode.IsControl):
		return fault(ErrInvalid, "the name %q of %s holds control characters", name, kind)
	}
	return nil
}

func validWho(who string) error {
	if who == "" || len(who) > MaxName {
		return fault(ErrInvalid, "who made the change has 1 to %d bytes, not %d", MaxName, len(who))
	}
	return nil
}

func finite(f float64) bool { return !math.IsNaN(f) && !math.IsInf(f, 0) }
