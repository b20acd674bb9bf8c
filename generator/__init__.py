"""boardwright: from a measured wet room to cut boards, drawings and lists."""

__version__ = "0.1.0"
