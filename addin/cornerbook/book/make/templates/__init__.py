"""Which chapters and blocks a workbook has, held to what each kind of block declares."""
