"""Storms: a batch is worked while network, phone, browser and server fail in an order drawn from a seed."""
