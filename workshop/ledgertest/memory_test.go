package ledgertest

import (
	"testing"

	"layshaft/workshop"
)

func TestMemory(t *testing.T) {
	Run(t, func(*testing.T) workshop.Storage { return new(Memory) })
}
