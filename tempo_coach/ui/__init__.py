"""The screen: what is shown while a set is prescribed, paced and logged."""
