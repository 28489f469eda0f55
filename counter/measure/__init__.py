"""True size and photographs to measured looks."""
