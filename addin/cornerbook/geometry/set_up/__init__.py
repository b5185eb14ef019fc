"""What is measured on the finished car: rims, gauges, scales."""
