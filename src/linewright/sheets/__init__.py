# SPDX-License-Identifier: Apache-2.0
"""What each paper says."""
