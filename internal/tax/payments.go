package tax

func (c *computation) payments() {}
