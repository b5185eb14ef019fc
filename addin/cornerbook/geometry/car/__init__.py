"""The whole car in plain numbers: masses, tyres, turn, ride, brakes, drive, the rear axle."""
