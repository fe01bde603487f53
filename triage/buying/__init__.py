"""What a buyer needs beside the assessment: who she is, and what she is worth."""
