package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
)

// tellCautions writes cautions with their sources behind them, each source once and
// for what it stands.
func tellCautions(list []engine.Caution) []string {
	var out, sources []string
	of := make(map[string][]string)
	memory := false
	for _, w := range list {
		out = append(out, fmt.Sprintf("%s: %s", sentence(w.Kind), w.Text))
		source, recalled := withoutMemory(w.Source)
		if source == "" {
			source = "general knowledge, no source read"
		} else if recalled {
			source, memory = source+" *", true
		}
		if !slices.Contains(sources, source) {
			sources = append(sources, source)
		}
		if !slices.Contains(of[source], w.Kind) {
			of[source] = append(of[source], w.Kind)
		}
	}
	switch {
	case len(list) == 0:
		return nil
	case len(sources) == 1:
		out = append(out, "Source: "+sources[0]+".")
	default:
		out = append(out, "Sources:")
		for _, s := range sources {
			out = append(out, fmt.Sprintf("%s: %s", strings.Join(of[s], ", "), s))
		}
	}
	if memory {
		out = append(out, "* named from memory, not read again by pottle's makers: check it before you cite it.")
	}
	return out
}

// withoutMemory takes "from memory" off a source and reports whether it was there.
func withoutMemory(source string) (string, bool) {
	if !strings.Contains(source, "from memory") {
		return source, false
	}
	s := strings.NewReplacer(", from memory", "", "from memory: ", "", "from memory", "").Replace(source)
	return strings.Trim(s, " ,;:"), true
}
