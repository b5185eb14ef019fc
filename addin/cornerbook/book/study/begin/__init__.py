"""From few numbers to a whole scenario: in proportion first, then placed and solved."""
