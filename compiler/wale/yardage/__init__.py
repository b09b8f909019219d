"""What yarn to buy, where it runs out, what a change saves: the data of `wale yarn` and its pages."""
