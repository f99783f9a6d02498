package grammar

import "strings"

// String writes the recipe as text that ParseRecipe reads back: the title, the
// servings, the headings and ingredient lines as they read now, the directions.
// Talk around the recipe is left out.
func (r *Recipe) String() string {
	var b strings.Builder
	if r.Title != "" {
		b.WriteString(r.Title + "\n")
	}
	if r.Servings.Low != nil {
		b.WriteString("Serves " + r.Servings.String() + "\n")
	}
	b.WriteString("\n")
	for _, l := range r.Lines {
		if l.Kind == Ingredient || l.Kind == Heading && sections[strings.TrimRight(strings.ToLower(l.Text), ": ")] == sectionNone {
			b.WriteString(l.Text + "\n")
		}
	}
	if len(r.Method) > 0 {
		b.WriteString("\nDirections\n" + strings.Join(r.Method, "\n") + "\n")
	}
	return b.String()
}
