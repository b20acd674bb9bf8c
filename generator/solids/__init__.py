"""Level 3: the plan as bodies. Only here are cadquery and OCP imported."""
