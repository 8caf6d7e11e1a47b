package workshop

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
)

const (
	peopleStream = "people"
	kindJoined   = "person-joined"
)

// People lists who works in the shop, in the order in which they joined.
func (s *Shop) People(ctx context.Context) ([]Person, error) {
	entries, err := s.storage.Read(ctx, peopleStream, 0)
	if err != nil {
		return nil, err
	}
	var people []Person
	for _, e := range entries {
		var p Person
		if e.Kind != kindJoined {
			continue
		}
		if err := json.Unmarshal(e.Body, &p); err != nil {
			return nil, fmt.Errorf("entry %d of %s cannot be read: %w", e.Seq, e.Stream, err)
		}
		people = append(people, p)
	}
	return people, nil
}

// AddPerson enters somebody who works in the shop. The first one is entered by nobody and becomes the owner;
// everybody after by somebody who may.
func (s *Shop) AddPerson(ctx context.Context, by Person, p Person) error {
	people, err := s.People(ctx)
	if err != nil {
		return err
	}
	if len(people) > 0 {
		if err := allow(by, ManagePeople); err != nil {
			return err
		}
	} else {
		p.Role = Owner
	}
	if strings.TrimSpace(p.Name) == "" || p.ID == "" {
		return &Fault{Key: "name", Message: "the person has no name"}
	}
	if _, known := rights[p.Role]; !known {
		return &Fault{Key: "role", Message: fmt.Sprintf("%q is not a role of the shop", p.Role)}
	}
	for _, there := range people {
		if there.ID == p.ID {
			return &Fault{Key: "name", Message: fmt.Sprintf("%s is already here", there.Name)}
		}
	}
	body, err := json.Marshal(p)
	if err != nil {
		return err
	}
	_, err = s.storage.Append(ctx, peopleStream, int64(len(people)), Entry{
		ID: "person-" + p.ID, Stream: peopleStream, At: s.now().UTC(), By: by.ID, Kind: kindJoined, Body: body,
	})
	return err
}
