package slack

import (
	"slices"

	"github.com/slack-go/slack"

	"pottle/store"
)

// recentNames is how many recipes the Home tab lists as worked on last.
const recentNames = 5

// publishHome shows the Home tab to the person who opened it.
func (s *Server) publishHome(m said) bool {
	found, err := s.store.In(m.team).FindRecipes(s.ctx, store.Query{Max: homeNames})
	if err != nil {
		s.log.Error("the recipes could not be read", "error", err, "team", m.team)
		s.metrics.failed("store")
		return s.ctx.Err() == nil
	}
	latest := slices.Clone(found.Recipes)
	slices.SortStableFunc(latest, func(a, b store.RecipeHead) int { return b.ChangedAt.Compare(a.ChangedAt) })
	view := Home(recipeNames(latest[:min(len(latest), recentNames)]), recipeNames(found.Recipes))
	return s.posted(m, m.ws.poster.call(s.ctx, "", func() error {
		_, err := m.ws.api.PublishViewContext(s.ctx, slack.PublishViewContextRequest{UserID: m.user, View: view})
		return err
	}))
}

func recipeNames(recipes []store.RecipeHead) (names []string) {
	for _, r := range recipes {
		names = append(names, r.Name)
	}
	return names
}
