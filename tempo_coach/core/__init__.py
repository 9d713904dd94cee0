"""The pure core: values and rules, without clock, file, device, screen or randomness."""
