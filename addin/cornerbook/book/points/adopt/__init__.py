"""What a workbook's own sheets offer, a variant or the sheet Placing, made its points."""
