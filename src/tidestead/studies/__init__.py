"""One study per question: find facts from the plan, then judge them into an answer."""
