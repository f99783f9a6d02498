package store_test

import (
	"context"
	"errors"
	"fmt"

	"pottle/store"
)

func Example() {
	ctx := context.Background()
	s, err := store.OpenMemory(store.Options{}) // or store.Open(dir, store.Options{})
	if err != nil {
		panic(err)
	}
	defer s.Close()
	team := s.In("T0123")

	soup, err := team.SaveRecipe(ctx, store.Recipe{
		RecipeHead: store.RecipeHead{Name: "turkey barley soup", Tags: []string{"winter"}, Figures: map[string]store.Figure{"NA": {Value: 380}}},
		Versions:   []store.RecipeVersion{{Text: "1 cup pearl barley", Servings: 4}},
	}, "Ann")
	if err != nil {
		panic(err)
	}

	// Two people go on from the same version: the second is told.
	ann, ben := soup, soup
	ann.Tags = append(ann.Tags, "low salt")
	ben.Versions = append(ben.Versions, store.RecipeVersion{Text: "2 cups pearl barley", Said: "twice the barley"})
	_, err = team.SaveRecipe(ctx, ann, "Ann")
	fmt.Println(err)
	_, err = team.SaveRecipe(ctx, ben, "Ben")
	fmt.Println(errors.Is(err, store.ErrConflict), store.Message(err))

	found, err := team.FindRecipes(ctx, store.Query{Limits: []store.Limit{{Tag: "NA", Bound: store.AtMost, Value: 400}}})
	if err != nil {
		panic(err)
	}
	fmt.Println(found.Total, found.Recipes[0].Name, found.Recipes[0].Tags)
	// Output:
	// <nil>
	// true recipe "turkey barley soup" was changed meanwhile by Ann (revision 2, not 1)
	// 1 turkey barley soup [low salt winter]
}
