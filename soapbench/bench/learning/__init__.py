"""What finished runs teach the next plan: the lesson of each, what many come to, and where they are kept."""
