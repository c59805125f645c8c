package tax

func (c *computation) incomeTax() {}
