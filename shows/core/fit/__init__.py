"""Whether the house can do what a show asks, spot by spot: findings, how bad each is, and who may decide it."""
