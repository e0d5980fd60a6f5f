"""Starter batteries: case, layout, posts, ledges, capacity and cold start."""
