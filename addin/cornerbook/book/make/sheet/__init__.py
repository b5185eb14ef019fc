"""A book in memory: its sheets, rows, tables and verdicts, and how a kind of block is declared."""
