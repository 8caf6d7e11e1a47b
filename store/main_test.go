package store

import (
	"context"
	"flag"
	"fmt"
	"os"
	"testing"

	"layshaft/workshop"
)

var writeFixture = flag.Bool("write-fixture", false, "write testdata/schema-N.db for the newest schema, when it is released")

// childVariable names the database that a copy of this test program writes to until it is killed.
const childVariable = "STORE_TEST_WRITE_UNTIL_KILLED"

func TestMain(m *testing.M) {
	if path := os.Getenv(childVariable); path != "" {
		fmt.Println(writeUntilKilled(path))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// batch is how many entries the child appends at once: all of them stand, or none.
const batch = 3

// writeUntilKilled appends batch after batch and says how many entries stand, once Append has answered.
func writeUntilKilled(path string) error {
	ctx := context.Background()
	s, err := Open(ctx, path)
	if err != nil {
		return err
	}
	entries, err := s.Read(ctx, "car/1", 0)
	if err != nil {
		return err
	}
	for last := int64(len(entries)); ; last += batch {
		var more []workshop.Entry
		for i := range int64(batch) {
			more = append(more, note(fmt.Sprint(last+i+1)))
		}
		if _, err := s.Append(ctx, "car/1", last, more...); err != nil {
			return err
		}
		fmt.Println(last + batch)
	}
}
