package workshop

import "fmt"

// Role is what a person does in the shop; it decides what they may enter.
type Role string

// The roles of a shop.
const (
	Owner      Role = "owner"
	Manager    Role = "manager"
	Technician Role = "technician"
)

// Person is somebody who works in the shop.
type Person struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Role Role   `json:"role"`
}

// Act is something that a person may or may not do. All rights are in the table below and nowhere else.
type Act string

// What people do.
const (
	OpenCar       Act = "open a car"
	ChangeFigures Act = "change a car's figures"
	ChangePrices  Act = "change rates and prices"
	ChooseOptions Act = "choose options"
	MoveCar       Act = "say where a car stands"
	WriteNote     Act = "write a note"
	RenewLayout   Act = "move a car to another version of its layout"
	ManagePeople  Act = "add people"
)

var rights = map[Role][]Act{
	Owner:      {OpenCar, ChangeFigures, ChangePrices, ChooseOptions, MoveCar, WriteNote, RenewLayout, ManagePeople},
	Manager:    {OpenCar, ChangeFigures, ChangePrices, ChooseOptions, MoveCar, WriteNote, RenewLayout},
	Technician: {OpenCar, ChangeFigures, MoveCar, WriteNote},
}

// Roles lists the roles, the one with the most rights first.
func Roles() []Role { return []Role{Owner, Manager, Technician} }

// May reports whether the person's role allows the act.
func (p Person) May(act Act) bool {
	for _, allowed := range rights[p.Role] {
		if allowed == act {
			return true
		}
	}
	return false
}

// NotAllowed says who may not do what.
type NotAllowed struct {
	Person Person
	Act    Act
}

func (n *NotAllowed) Error() string {
	return fmt.Sprintf("%s (%s) may not %s; ask somebody who may: %s", n.Person.Name, n.Person.Role, n.Act, whoMay(n.Act))
}

func whoMay(act Act) string {
	names := ""
	for _, role := range Roles() {
		if (Person{Role: role}).May(act) {
			if names != "" {
				names += " or "
			}
			names += string(role)
		}
	}
	return names
}
