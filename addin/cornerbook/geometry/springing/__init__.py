"""Springs: from the wheel's travel to the spring's length, and what springs and stops then push."""
