"""Stories: the question a lesson answers, and how it is told."""
