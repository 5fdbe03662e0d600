"""What leaves the workshop beside the film: pages, handouts, scores, event files, quizzes and packages."""
