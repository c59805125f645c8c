package tax

func (c *computation) cautions() {}
