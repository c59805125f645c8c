package tax

func (c *computation) otherTaxes() {}
