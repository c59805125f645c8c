package tax

func (c *computation) refundable() {}
