"""What trainees answered: records on the disk, what their lines say, who is ready, what is confused with what."""
