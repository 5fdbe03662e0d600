"""Work that is kept: jobs with a digest key, a store of their results, and what runs them on several cores."""
