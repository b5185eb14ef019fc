"""Formulas for the whole car: masses, tyres, turn, ride, brakes, drive, rear axle, understeer."""
