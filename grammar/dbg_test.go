package grammar

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"
)

func TestDbg(t *testing.T) {
	f := os.Getenv("DBG")
	if f == "" {
		t.Skip()
	}
	h, _ := os.Open(f)
	sc := bufio.NewScanner(h)
	for sc.Scan() {
		s := sc.Text()
		if strings.HasPrefix(s, "#") || s == "" {
			continue
		}
		s = strings.Split(s, "\t")[0]
		t0 := time.Now()
		items, fault := readItems(clean(s), 0)
		d := time.Since(t0)
		fmt.Printf("%s   [%v] %v\n", s, d, fault)
		for _, i := range items {
			fmt.Print("    ")
			show(i)
			fmt.Println()
		}
	}
}
func show(i Item) {
	a := "-"
	if i.Amount != nil {
		a = i.Amount.String()
	}
	fmt.Printf("{%s} %q", a, strings.Join(i.Words, " "))
	if len(i.Prep) > 0 {
		fmt.Printf(" prep=%q", strings.Join(i.Prep, " "))
	}
	if len(i.Aside) > 0 {
		fmt.Printf(" aside=%q", i.Aside)
	}
	if i.Part > 0 {
		fmt.Printf(" part=%v", i.Part)
	}
	if i.Optional {
		fmt.Print(" OPTIONAL")
	}
	if i.Uncounted != "" {
		fmt.Printf(" uncounted=%q", i.Uncounted)
	}
	if i.More != "" {
		fmt.Printf(" more=%q", i.More)
	}
	if len(i.Notes) > 0 {
		fmt.Printf(" notes=%q", i.Notes)
	}
	for _, o := range i.Or {
		fmt.Print(" OR ")
		show(o)
	}
}
