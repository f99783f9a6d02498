package main

import (
	"fmt"
	"runtime/debug"

	"pottle/fooddata"
)

type versionCommand struct{}

// Run prints the program's version and the food table's release.
func (c *versionCommand) Run(p *program) error {
	table, err := fooddata.Open()
	if err != nil {
		return fmt.Errorf("open food table: %w", err)
	}
	version := "unversioned"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		version = info.Main.Version
	}
	_, err = fmt.Fprintf(p.out, "pottle %s\nfood table: %s, %d foods\n", version, table.Release(), table.Len())
	return err
}
