package library

import (
	"layshaft/pricing"
	"layshaft/yamlfile"
)

// file is a layout as it is written.
type file struct {
	Layout     string                       `key:"layout" need:"yes" like:"rwd-longitudinal"`
	Title      string                       `key:"title"`
	Basis      string                       `key:"basis"`
	About      string                       `key:"about"`
	Operations yamlfile.Map[operationEntry] `key:"operations" need:"yes"`
	Jobs       yamlfile.Map[jobEntry]       `key:"jobs" need:"yes"`
}

type operationEntry struct {
	TakeOff   string     `key:"take_off"`
	PutBack   string     `key:"put_back"`
	Off       float64    `key:"off" of:"time" need:"yes" like:"0.3 h" check:">=0"`
	On        float64    `key:"on" of:"time" need:"yes" like:"0.4 h" check:">=0"`
	Needs     []string   `key:"needs"`
	AnyOf     [][]string `key:"any_of"`
	Condition bool       `key:"condition"`
	Place     string     `key:"place"`
	People    int        `key:"people" like:"2" check:">=1"`
	Tools     []string   `key:"tools"`
	SingleUse []string   `key:"single_use"`
	Fluids    []string   `key:"fluids"`
	Tighten   []string   `key:"tighten"`
	WhichWay  []string   `key:"which_way"`
	Caution   []string   `key:"caution"`
	Checks    []string   `key:"checks"`
}

type jobEntry struct {
	Title    string        `key:"title"`
	Work     float64       `key:"work" of:"time" need:"yes" like:"0.5 h" check:">=0"`
	Needs    []string      `key:"needs"`
	AnyOf    [][]string    `key:"any_of"`
	Place    string        `key:"place"`
	Parts    []partEntry   `key:"parts"`
	Insist   []adviceEntry `key:"insist"`
	Advise   []adviceEntry `key:"advise"`
	Tighten  []string      `key:"tighten"`
	WhichWay []string      `key:"which_way"`
	Caution  []string      `key:"caution"`
	Checks   []string      `key:"checks"`
}

type partEntry struct {
	Name     string        `key:"name" need:"yes" like:"Clutch kit"`
	Price    pricing.Money `key:"price" need:"yes"`
	Quantity *float64      `key:"qty" of:"number" like:"6" check:">0"`
}

type adviceEntry struct {
	Job  string    `key:"job" need:"yes" like:"replace-release-bearing"`
	When Condition `key:"when" need:"yes"`
	Why  string    `key:"why"`
}
