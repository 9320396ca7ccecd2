"""Weather comes in here: files beside the plan, years fetched once, monthly means; each as the same record."""
