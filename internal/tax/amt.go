package tax

func (c *computation) minimumTax() {}
