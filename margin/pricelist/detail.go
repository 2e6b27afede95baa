package pricelist

// Detail is how much the answer to a lot holds. Its zero value is Full, and so is any that
// has no name.
type Detail uint8

const (
	// Full is all that an answer to a document says of its products.
	Full Detail = iota
	// Brief is what was decided, and what deserves a look: of each product its price, the
	// least and the greatest one allowed, its statements and kinds of order; warnings; what
	// was dropped; of a conflict, what each rule allows and how far apart they are. Runs of
	// allowed prices, steps and all other reasons, dead zones, what is said of the public
	// price, of parcels, layouts and quotes, and remedies are left out.
	Brief
	// Figures is Brief without warnings and kinds of order, which makes it cheaper still.
	// Nothing in it says that a price loses money: it is for prices that are only tried.
	Figures
)

// detailed is the answer to a lot, whose rules follow after so many of its shop.
func (d *decided) detailed(detail Detail, rules int) (a Answer, err error) {
	switch detail {
	case Figures:
		a = d.outcome()
		return a, d.products(&a, d.figures)
	case Brief:
		a = d.outcome()
		err = d.products(&a, d.selling)
	default:
		a, err = d.reasoned()
	}
	if err != nil {
		return a, err
	}
	a.Warnings = d.lotWarnings(a, rules)
	if detail == Brief {
		withoutDeadZones(a.Products)
	}
	return a, nil
}

// selling is a product's figures with what warnings look at beside them.
func (d *decided) selling(i int, p *Priced) error {
	if err := d.figures(i, p); err != nil {
		return err
	}
	for j := range p.Channels {
		if _, err := d.inChannel(i, j, p); err != nil {
			return err
		}
	}
	return nil
}

func withoutDeadZones(products []Priced) {
	for _, p := range products {
		for j := range p.Channels {
			p.Channels[j].DeadZones = nil
		}
	}
}
